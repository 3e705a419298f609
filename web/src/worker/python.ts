// Loads Python and the core into this worker: from the snapshot that the build has made, or where that does not fit this
// browser, as Pyodide starts by itself.
import { loadPyodide, type PyodideAPI } from "pyodide";
import type { Method } from "../contract/types";
import { mark } from "../speech/say";
import { type Adapter, isAdapter } from "./adapter";
import { judgeOf } from "./judge";
import { fetchForOf } from "./late";
import { fetchedShare, type Parts, watchParts } from "./loading";
import type { Fault } from "./running";
import { type LoadOptions, restorePython } from "./snapshot/restore";
import { fetchSnapshot } from "./snapshot/sources";
import { checkTablesKeepFunctions } from "./snapshot/support";

/** The core, and how to tell what went wrong in it. */
export interface LoadedCore {
  adapter: Adapter;
  judge(thrown: unknown): Fault;
  /** Fetch what a method needs besides; undefined where all of it is there. Rejects when it cannot be had. */
  fetchFor(method: Method): Promise<void> | undefined;
}

type OnLoading = (done: number, label: string) => void;

const PLAIN_PARTS: Parts = [
  ["pyodide.asm.wasm", "Python"],
  ["python_stdlib.zip", mark("Python's own library")],
  ["numpy-", "numpy"],
  ["pillow-", "Pillow"],
  ["pydantic_core-", "pydantic"],
];

const SNAPSHOT_PARTS: Parts = [
  ["pyodide.asm.wasm", "Python"],
  ["python_stdlib.zip", mark("Python's own library")],
  ["snapshot/_multiarray_umath-", "numpy"],
  ["snapshot/_imaging-", "Pillow"],
  ["snapshot/memory-", "Tuckfold"],
];

/** Pydantic's own checks of its schemas, and its search for plugins, took a fifth of the core's start. The
 * tests run with both. */
const QUICK_PYDANTIC = { PYDANTIC_SKIP_VALIDATING_CORE_SCHEMAS: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" };

/** Fetch and start everything. A plain start does without the snapshot. */
export async function loadCore(folder: string, plain: boolean, onLoading: OnLoading): Promise<LoadedCore> {
  return (plain ? undefined : await restored(folder, onLoading)) ?? started(folder, onLoading);
}

/** The core from the snapshot; undefined where anything does not fit, and a line in the log says what. */
async function restored(folder: string, onLoading: OnLoading): Promise<LoadedCore | undefined> {
  const endWatch = watchParts(folder, SNAPSHOT_PARTS, onLoading);
  const fetching = new AbortController();
  try {
    checkTablesKeepFunctions();
    const [sources, create] = await Promise.all([fetchSnapshot(folder, fetching.signal), fetchProgram(folder)]);
    const python = await restorePython(sources, create, loadPyodide, options(folder));
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
async function started(folder: string, onLoading: OnLoading): Promise<LoadedCore> {
  const endWatch = watchParts(folder, PLAIN_PARTS, onLoading);
  try {
    const python = await loadPyodide({ ...options(folder), packages: ["tuckfold"], env: QUICK_PYDANTIC });
    onLoading(fetchedShare(PLAIN_PARTS), "Tuckfold");
    return coreOf(python);
  } finally {
    endWatch();
  }
}

function options(folder: string): LoadOptions {
  return {
    indexURL: folder,
    // The lock file names this build's wheels, so it must not come from an old visit; they never change.
    lockFileContents: fetchText(new URL("pyodide-lock.json", folder)),
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
async function fetchProgram(folder: string) {
  await import(/* @vite-ignore */ `${folder}pyodide.asm.js`);
  const create = globalThis._createPyodideModule;
  if (create === undefined) throw new Error("pyodide.asm.js is not what this page was built for");
  return create;
}

async function fetchText(address: URL): Promise<string> {
  const answer = await fetch(address, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${address.pathname}: ${answer.status} ${answer.statusText}`);
  return answer.text();
}
