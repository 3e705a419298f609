// node tools/compile.mjs OUT FILE...: compile the Python inside zips and wheels with the very Python that will
// run them in the browser, and write them to the folder OUT under the same names.
import { readFile, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import process from "node:process";
import { loadPyodide } from "pyodide";

const [out, ...files] = process.argv.slice(2);
async function run() {
  // Without a fixed seed the order of sets, and so the bytes, would differ from build to build.
  const python = await loadPyodide({ env: { PYTHONHASHSEED: "0" } });
  python.FS.writeFile("bytecode.py", await readFile(new URL("bytecode.py", import.meta.url)));
  const { compile_archive: compileArchive } = python.pyimport("bytecode");

  for (const file of files) {
    python.FS.writeFile("source", await readFile(file));
    compileArchive("source", "target");
    await writeFile(join(out, basename(file)), python.FS.readFile("target"));
    console.log(`compiled ${basename(file)}`);
  }
}

try {
  await run();
} catch (wrong) {
  // Node.js would print the whole line of the runtime's minified program beside it.
  console.error(String(wrong?.stack ?? wrong).slice(-6000));
  process.exitCode = 1;
}
