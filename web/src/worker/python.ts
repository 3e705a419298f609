// Loads Python and the core into this worker.
import { loadPyodide, type PyodideAPI } from "pyodide";
import type { Method } from "../contract/types";
import { type Adapter, isAdapter } from "./adapter";
import type { Fault } from "./running";

/** The core, and how to tell what went wrong in it. */
export interface LoadedCore {
  adapter: Adapter;
  judge(thrown: unknown): Fault;
  /** Fetch what a method needs besides; undefined where all of it is there. Rejects when it cannot be had. */
  fetchFor(method: Method): Promise<void> | undefined;
}

/** What only some methods need is fetched when one of them is first called. */
const LATE: Partial<Record<Method, readonly string[]>> = {
  plan: ["rectpack"],
  ticket: ["fpdf2", "defusedxml", "fonttools"],
};

/** What is fetched, by the start of its file name, in the order in which it usually comes. */
const PARTS: readonly (readonly [file: string, label: string])[] = [
  ["pyodide.asm.wasm", "Python"],
  ["python_stdlib.zip", "Python's own library"],
  ["numpy-", "numpy"],
  ["pillow-", "Pillow"],
  ["pydantic_core-", "pydantic"],
];

/** Pydantic's own checks of its schemas, and its search for plugins, took a fifth of the core's start. The
 * tests run with both. */
const QUICK_PYDANTIC = { PYDANTIC_SKIP_VALIDATING_CORE_SCHEMAS: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" };

/** Starting what was fetched takes about as long as this many of the parts above. */
const STARTING_PARTS = 3;

/** Fetch and start everything. Wheels are checked against the sha256 of the lock file as they arrive. */
export async function loadCore(folder: string, onLoading: (done: number, label: string) => void): Promise<LoadedCore> {
  const endWatch = watchParts(folder, onLoading);
  try {
    const python = await loadPyodide({
      indexURL: folder,
      // The lock file names this build's wheels, so it must not come from an old visit; they never change.
      lockFileContents: fetchText(new URL("pyodide-lock.json", folder)),
      packageBaseUrl: folder,
      packages: ["tuckfold"],
      env: QUICK_PYDANTIC,
      stdout: (line) => console.info(line),
      stderr: (line) => console.warn(line),
    });
    onLoading(PARTS.length / (PARTS.length + STARTING_PARTS), "Tuckfold");
    const module: unknown = python.pyimport("pycore.bridge.adapter");
    if (!isAdapter(module)) throw new Error("pycore.bridge.adapter is not what this page was built for");
    return {
      adapter: module,
      judge: (thrown) => judge(python, thrown),
      fetchFor: (method) => {
        const missing = lacking(python, method);
        return missing.length === 0 ? undefined : fetchPackages(python, method, missing);
      },
    };
  } finally {
    endWatch();
  }
}

function lacking(python: PyodideAPI, method: Method): string[] {
  return (LATE[method] ?? []).filter((name) => python.loadedPackages[name] === undefined);
}

/** Pyodide tells of a package that did not come on its console only, so what is there is looked up. */
async function fetchPackages(python: PyodideAPI, method: Method, names: string[]): Promise<void> {
  await python.loadPackage(names, { messageCallback: () => {} });
  const missing = lacking(python, method);
  if (missing.length > 0) throw new Error(`${missing.join(", ")} did not come`);
}

async function fetchText(address: URL): Promise<string> {
  const answer = await fetch(address, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${address.pathname}: ${answer.status} ${answer.statusText}`);
  return answer.text();
}

/** Tell of every part as it has been fetched. */
function watchParts(folder: string, onLoading: (done: number, label: string) => void): () => void {
  let fetched = 0;
  const observer = new PerformanceObserver((list) => {
    for (const { name } of list.getEntries()) {
      const part = PARTS.find(([file]) => name.startsWith(folder + file));
      if (part === undefined) continue;
      fetched += 1;
      onLoading(fetched / (PARTS.length + STARTING_PARTS), part[1]);
    }
  });
  observer.observe({ type: "resource" });
  return () => observer.disconnect();
}

function judge(python: PyodideAPI, thrown: unknown): Fault {
  if (thrown instanceof python.ffi.PythonError) {
    const traceback = thrown.message;
    const lastLine = traceback.trimEnd().split("\n").at(-1) ?? thrown.type;
    const message = thrown.type === "MemoryError" ? "not enough memory for a canvas of this size" : lastLine;
    return { kind: "raised", message, traceback };
  }
  // Any other failure of WebAssembly (a trap, no memory, stack overflow) leaves Python unusable.
  return { kind: "fatal", message: `Python stopped (${String(thrown)})` };
}
