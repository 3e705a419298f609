// Loads Python and the core into this worker: from the snapshot that the build has made, or where that does not fit this
// browser, as Pyodide starts by itself.
import { loadPyodide, type PyodideAPI } from "pyodide";
import type { Method } from "../contract/types";
import { type Adapter, isAdapter } from "./adapter";
import { judgeOf } from "./judge";
import { fetchForOf } from "./late";
import { fetchedShare, type Parts, watchParts } from "./loading";
import type { Fault } from "./running";
import {
  checkedFetch,
  fetchRuntimeIndex,
  KEPT,
  LIBRARY_OF_SNAPSHOT,
  PROGRAM,
  type RuntimeIndex,
} from "./runtime_index";
import { type LoadOptions, restorePython } from "./snapshot/restore";
import type { CreateRuntime } from "./snapshot/runtime";
import { fetchSnapshot } from "./snapshot/sources";
import { reportingFailures } from "./start_failures";
import { checkTablesKeepFunctions } from "./snapshot/support";
import { mark } from "../speech/say";

/** The core, and how to tell what went wrong in it. */
export interface LoadedCore {
  adapter: Adapter;
  judge(thrown: unknown): Fault;
  /** Fetch what a method needs besides; undefined where all of it is there. Rejects when it cannot be had. */
  fetchFor(method: Method): Promise<void> | undefined;
}

type OnLoading = (done: number, label: string) => void;

const BINARY: Parts[number] = [/^pyodide\.asm-.*\.wasm$/, "Python"];

const PLAIN_PARTS: Parts = [
  BINARY,
  [/^python_stdlib-/, mark("Python's own library")],
  [/^numpy-/, "numpy"],
  [/^pillow-/, "Pillow"],
  [/^pydantic_core-/, "pydantic"],
];

const SNAPSHOT_PARTS: Parts = [
  BINARY,
  [/^snapshot\/library-/, mark("Python's own library")],
  [/^snapshot\/_multiarray_umath-/, "numpy"],
  [/^snapshot\/_imaging-/, "Pillow"],
  [/^snapshot\/memory-/, "Tuckfold"],
];

/** Pydantic's own checks of its schemas, and its search for plugins, took a fifth of the core's start. The
 * tests run with both. */
const QUICK_PYDANTIC = { PYDANTIC_SKIP_VALIDATING_CORE_SCHEMAS: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" };

/** Fetch and start everything. A plain start does without the snapshot. */
export async function loadCore(folder: string, plain: boolean, onLoading: OnLoading): Promise<LoadedCore> {
  const index = await fetchRuntimeIndex(folder);
  // Pyodide fetches by names of its own, and without hashes.
  globalThis.fetch = checkedFetch(index, folder, globalThis.fetch.bind(globalThis));
  const runtime: Runtime = { index, folder, program: fetchProgram(index, folder) };
  return (plain ? undefined : await restored(runtime, onLoading)) ?? started(runtime, onLoading);
}

interface Runtime {
  index: RuntimeIndex;
  folder: string;
  program: ReturnType<typeof fetchProgram>;
}

/** The core from the snapshot; undefined where anything does not fit, and a line in the log says what. */
async function restored({ index, folder, program }: Runtime, onLoading: OnLoading): Promise<LoadedCore | undefined> {
  const endWatch = watchParts(folder, SNAPSHOT_PARTS, onLoading);
  const fetching = new AbortController();
  try {
    checkTablesKeepFunctions();
    const sources = fetchSnapshot(index.snapshot, folder, fetching.signal);
    const stdLibURL = folder + LIBRARY_OF_SNAPSHOT;
    const given = { ...options(index, folder), stdLibURL };
    const create = await program;
    const python = await reportingFailures(() => restorePython(sources, create, loadPyodide, given));
    onLoading(fetchedShare(SNAPSHOT_PARTS), "Tuckfold");
    renew(python.pyimport("pycore.bridge.restored"));
    return coreOf(python);
  } catch (reason) {
    fetching.abort();
    console.info(`Python starts without its snapshot: ${String(reason)}`);
    return undefined;
  } finally {
    endWatch();
  }
}

/** The core as Pyodide starts it. Wheels are checked against the sha256 of the lock file as they arrive. */
async function started({ index, folder, program }: Runtime, onLoading: OnLoading): Promise<LoadedCore> {
  const endWatch = watchParts(folder, PLAIN_PARTS, onLoading);
  try {
    await program;
    const python = await reportingFailures(() =>
      loadPyodide({ ...options(index, folder), packages: ["tuckfold"], env: QUICK_PYDANTIC }),
    );
    onLoading(fetchedShare(PLAIN_PARTS), "Tuckfold");
    return coreOf(python);
  } finally {
    endWatch();
  }
}

function options({ lock }: RuntimeIndex, folder: string): LoadOptions {
  return {
    indexURL: folder,
    lockFileContents: JSON.stringify(lock),
    packageBaseUrl: folder,
    stdout: (line) => console.info(line),
    stderr: (line) => console.warn(line),
  };
}

function coreOf(python: PyodideAPI): LoadedCore {
  const module: unknown = python.pyimport("pycore.bridge.adapter");
  if (!isAdapter(module)) throw new Error("pycore.bridge.adapter is not what this page was built for");
  return { adapter: module, judge: judgeOf(python), fetchFor: fetchForOf(python) };
}

/** Make anew what no two pages may share. */
function renew(module: unknown): void {
  if (!canRenew(module)) throw new Error("pycore.bridge.restored is not what this page was built for");
  module.renew();
}

function canRenew(module: unknown): module is { renew(): void } {
  return typeof module === "object" && module !== null && "renew" in module && typeof module.renew === "function";
}

/** Pyodide's program, which `loadPyodide` would fetch only once it runs. */
async function fetchProgram({ files }: RuntimeIndex, folder: string): Promise<CreateRuntime> {
  // An import checks no hash. Its name holds one, so that what is checked here is what the browser keeps and takes.
  const checked = await fetch(folder + PROGRAM);
  await checked.arrayBuffer();
  // Whether that came from the network or from what is kept, the answer does not tell: it names its first address.
  const address = folder + files[PROGRAM].file;
  await import(/* @vite-ignore */ address).catch(() => import(/* @vite-ignore */ address + KEPT));
  const create = globalThis._createPyodideModule;
  if (create === undefined) throw new Error("pyodide.asm.js is not what this page was built for");
  return create;
}
