// node tools/snapshot.mjs PROGRAM WORK DEMO: make the memory that the page starts from, and the demo as the core shows it.
//
// PROGRAM is the folder of Pyodide's program, as the site serves it. WORK holds library.zip, Python's own library, pack.bin and
// libraries.json, a list of {path, file} in the order of linking; memory.bin, memory.json and demo_view.bin are written beside
// them. DEMO is the folder of the demo's job and picture.
// Built twice from the same files, the bytes are the same: time stands still and chance is a fixed sequence.
import nodeCrypto from "node:crypto";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import process from "node:process";
import { loadPyodide } from "pyodide";
import { runnerImport } from "vite";

const [program, work, demo] = process.argv.slice(2);

/** WebAssembly's memory grows by these. */
const WASM_PAGE = 65536;
/** What is not zero is kept in pieces of this size. */
const PIECE = 4096;

/** Python's environment. A fixed seed of hashes makes the memory the same each time; what pydantic checks of its own
 * schemas, and its search for plugins, is a fifth of the core's start, and the tests run with both. */
const ENVIRONMENT = {
  PYTHONHASHSEED: "0",
  PYDANTIC_SKIP_VALIDATING_CORE_SCHEMAS: "1",
  PYDANTIC_DISABLE_PLUGINS: "__all__",
};

async function worker(file) {
  const { module } = await runnerImport(join(import.meta.dirname, "..", "src", "worker", "snapshot", file), {
    configFile: false,
    logLevel: "error",
  });
  return module;
}

function stopTime(dateMs) {
  Date.now = () => dateMs;
  performance.now = () => 0;
  let next = 1;
  // The runtime asks here in Node.js.
  nodeCrypto.randomFillSync = (array) => {
    const bytes = new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
    // A linear congruential generator: the constants do not matter, for Python's chance is seeded anew in the page.
    for (let i = 0; i < bytes.length; i++) bytes[i] = (next = (next * 1664525 + 1013904223) >>> 0) >>> 24;
    return array;
  };
}

async function run() {
  const { linkLibraries } = await worker("libraries.ts");
  const { mountPack, ONE_DATE_MS } = await worker("pack.ts");
  const { createPrepared } = await worker("restore.ts");
  const pack = new Uint8Array(await readFile(join(work, "pack.bin")));
  const libraries = JSON.parse(await readFile(join(work, "libraries.json"), "utf8"));
  const compiled = [];
  for (const { path, file } of libraries) {
    compiled.push({ path, module: await WebAssembly.compile(await readFile(join(work, file))) });
  }

  // The same program as the site's, from a place where Node.js takes it for a script.
  await import("pyodide/pyodide.asm.js");
  const create = globalThis._createPyodideModule;
  let runtime, layout, buildId;
  globalThis._createPyodideModule = async (settings) => {
    buildId = settings.API.config.BUILD_ID;
    runtime = await createPrepared(create, settings, (early) => {
      layout = linkLibraries(compiled, early);
      mountPack(pack, early.FS);
    });
    return runtime;
  };
  stopTime(ONE_DATE_MS);
  const python = await loadPyodide({
    indexURL: program,
    stdLibURL: join(work, "library.zip"),
    lockFileContents: await readFile(join(program, "pyodide-lock.json"), "utf8"),
    packageBaseUrl: program,
    packages: [],
    env: ENVIRONMENT,
    // As in a browser; Node.js would name this file, where this checkout lies.
    _sysExecutable: "./this.program",
    _makeSnapshot: true,
  });
  python.pyimport("pycore.bridge.adapter").destroy();
  python.FS.writeFile("warm_up.py", await readFile(new URL("warm_up.py", import.meta.url)));
  // Time stands still, so that Python does not see that the folder has changed.
  const importlib = python.pyimport("importlib");
  importlib.invalidate_caches();
  importlib.destroy();
  const warmUp = python.pyimport("warm_up");
  python.FS.unlink("warm_up.py");
  warmUp.warm_up();
  const loaded = JSON.parse(warmUp.loaded_files());
  warmUp.leave_nothing();
  warmUp.destroy();
  clearFreeMemory(runtime);

  // Each start finds the packages by itself.
  for (const name of Object.keys(python.loadedPackages)) Reflect.deleteProperty(python.loadedPackages, name);
  const references = python._api.serializeHiwireState((one) => {
    throw new Error(`Python holds on to something that cannot be kept: ${String(one).slice(0, 200)}`);
  });
  const heap = Math.ceil(runtime._sbrk(0) / WASM_PAGE) * WASM_PAGE;
  const runs = stretches(runtime.HEAPU8.subarray(0, heap));
  const handles = Object.entries(runtime.LDSO.loadedLibsByHandle)
    .map(([handle, { name }]) => [Number(handle), name])
    .filter(([handle]) => handle !== 0);
  const linked = new Set(libraries.map(({ path }) => path));
  const strangers = handles.filter(([, path]) => !linked.has(path));
  if (strangers.length > 0) throw new Error(`not linked beforehand: ${strangers.map(([, path]) => path).join(", ")}`);
  await writeFile(
    join(work, "memory.bin"),
    runs.map(([address, length]) => runtime.HEAPU8.subarray(address, address + length)),
  );
  const facts = { buildId, layout, heap, runs, handles, references, loaded };
  await writeFile(join(work, "memory.json"), JSON.stringify(facts));
  await writeDemoView(python);
  const bytes = runs.reduce((sum, [, length]) => sum + length, 0);
  console.log(`a memory of ${heap} bytes, ${bytes} of them in ${runs.length} stretches that are not zero`);
}

/** Have the core show the demo. */
async function writeDemoView({ FS, pyimport, runPython }) {
  const copied = async (name, source) => FS.writeFile(name, await readFile(source));
  const { picture } = JSON.parse(await readFile(join(demo, "demo_job.json"), "utf8"));
  await copied("demo_job.json", join(demo, "demo_job.json"));
  await copied("picture", join(demo, picture.file));
  for (const name of ["warm_up.py", "demo_view.py"]) await copied(name, new URL(name, import.meta.url));
  runPython("import importlib, sys; importlib.invalidate_caches(); sys.path.insert(0, '.')");
  pyimport("demo_view").write_demo_view();
  await writeFile(join(work, "demo_view.bin"), FS.readFile("demo_view.bin"));
}

/** Write zeros over all that was freed: take it in ever smaller blocks until the memory would grow, and give it back. */
function clearFreeMemory(runtime) {
  const LARGEST = 1 << 20;
  const SMALLEST = 32;
  const held = [];
  for (let size = LARGEST; size >= SMALLEST; size >>= 1) {
    const end = runtime._sbrk(0);
    do held.push(runtime.getMemory(size));
    while (runtime._sbrk(0) === end);
  }
  for (const block of held) runtime._free(block);
}

/** Address and length of what is not zero. */
function stretches(heap) {
  const found = [];
  for (let address = 0; address < heap.length; address += PIECE) {
    const words = new BigUint64Array(heap.buffer, heap.byteOffset + address, PIECE / 8);
    if (words.every((word) => word === 0n)) continue;
    const last = found.at(-1);
    if (last !== undefined && last[0] + last[1] === address) last[1] += PIECE;
    else found.push([address, PIECE]);
  }
  return found;
}

try {
  await run();
  // Nothing of the runtime is needed any more, and what it waits for does not end by itself.
  process.exit(0);
} catch (wrong) {
  // Node.js would print the whole line of the runtime's minified program beside it.
  console.error(String(wrong?.stack ?? wrong).slice(-6000));
  process.exit(1);
}
