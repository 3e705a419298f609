// Prints, as JSON, what the Khronos validator says of each glTF file named on the command line.
import { readFile } from "node:fs/promises";
import { validateBytes } from "gltf-validator";

const reports = [];
for (const name of process.argv.slice(2)) {
  reports.push(await validateBytes(new Uint8Array(await readFile(name)), { uri: name, maxIssues: 100 }));
}
console.log(JSON.stringify(reports));
