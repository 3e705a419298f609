// node tools/load_snapshot.mjs PY: start Python from the site's snapshot in the folder PY, and print what
// tests/web/tools/test_snapshot.py asks of it, as one line of JSON.
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import process from "node:process";
import { loadPyodide } from "pyodide";
import { runnerImport } from "vite";

const folder = process.argv[2];
const source = join(import.meta.dirname, "..", "src", "worker", "snapshot", "restore.ts");
const { module: restore } = await runnerImport(source, { configFile: false, logLevel: "error" });

const manifest = JSON.parse(await readFile(join(folder, "snapshot.json"), "utf8"));
const bytes = async ({ file }) => new Uint8Array(await readFile(join(folder, file)));
// Pyodide's program, from a place where Node.js takes it for a script.
await import("pyodide/pyodide.asm.js");
const python = await restore.restorePython(
  {
    manifest,
    memory: bytes(manifest.memory),
    pack: bytes(manifest.pack),
    libraries: manifest.libraries.map(async (one) => ({
      path: one.path,
      module: await WebAssembly.compile(await bytes(one)),
    })),
  },
  globalThis._createPyodideModule,
  loadPyodide,
  {
    indexURL: folder,
    stdLibURL: join(folder, manifest.library.file),
    lockFileContents: await readFile(join(folder, "pyodide-lock.json"), "utf8"),
    packageBaseUrl: folder,
  },
);

const loaded = python.pyimport("sys").modules;
const before = { core: loaded.has("pycore.bridge.adapter"), random: loaded.has("numpy.random") };
const random = python.pyimport("random");
const kept = random.random();
python.pyimport("pycore.bridge.restored").renew();
const adapter = python.pyimport("pycore.bridge.adapter");
const handle = adapter.begin("hello", "{}");
const hello = adapter.step(handle);
adapter.end(handle);
const found = {
  before,
  kept,
  renewed: random.random(),
  path: python.pyimport("sys").path.toJs(),
  zone: python.pyimport("time").localtime(0).tm_gmtoff,
  hello: [hello.kind, hello.text],
  // A library that is linked only when it is imported, and a package that nothing has imported before.
  generator: python.pyimport("numpy.random").default_rng(1).random(),
  tifffile: python.pyimport("tifffile").__version__,
};
console.log(JSON.stringify(found));
process.exit(0);
