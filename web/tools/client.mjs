// Writes pycore/client/data/viewer.js, the program of the client's page, from src/client: one classic script,
// nothing fetched, nothing left out. With --check it writes nothing and fails when the file is not what is built.
import { readFile, writeFile } from "node:fs/promises";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const web = fileURLToPath(new URL("..", import.meta.url));
const file = new URL("../../pycore/client/data/viewer.js", import.meta.url);

const [output] = await build({
  root: web,
  configFile: false,
  envDir: false,
  publicDir: false,
  logLevel: "warn",
  define: { "process.env.NODE_ENV": '"production"' },
  build: {
    target: "es2022",
    write: false,
    minify: true,
    modulePreload: false,
    lib: { entry: "src/client/main.ts", formats: ["iife"], name: "tuckfoldClient" },
  },
});
const chunks = output.output.filter((one) => one.type === "chunk");
if (chunks.length !== 1 || output.output.length !== 1) throw new Error("expected one program and nothing beside it");

// The licence of three asks that its text stays with every copy.
const licence = await readFile(new URL("../node_modules/three/LICENSE", import.meta.url), "utf8");
const { version } = JSON.parse(await readFile(new URL("../node_modules/three/package.json", import.meta.url), "utf8"));
const banner = `/*!\nThe viewer of the client's page of Tuckfold. It holds parts of three ${version}:\n\n${licence.trim()}\n*/\n`;
const program = (banner + chunks[0].code.trim() + "\n").replaceAll("\r\n", "\n");
// Inside a page these would end the element or change how it is read.
for (const mark of ["</script", "<!--"]) {
  if (program.toLowerCase().includes(mark)) throw new Error(`the program holds ${mark}`);
}

if (process.argv.includes("--check")) {
  if ((await readFile(file, "utf8")) !== program) {
    console.error("pycore/client/data/viewer.js differs from web/src; run: npm run client");
    process.exit(1);
  }
} else {
  await writeFile(file, program);
  console.log(`viewer.js: ${Buffer.byteLength(program)} bytes`);
}
