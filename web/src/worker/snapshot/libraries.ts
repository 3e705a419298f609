// Linking compiled libraries before Python starts. Their code and data then lie at the same places in each start, if they
// come in the same order; a memory of another order would call wrong functions.
import type { Layout } from "./manifest";
import type { Runtime } from "./runtime";

export interface CompiledLibrary {
  path: string;
  module: WebAssembly.Module;
}

/** Link the libraries in their order, and say what came of it. */
export function linkLibraries(libraries: readonly CompiledLibrary[], runtime: Runtime): Layout {
  const tableBefore = runtime.wasmTable.length;
  for (const { path, module } of libraries) {
    const flags = { loadAsync: false, global: false, nodelete: true } as const;
    const linked = runtime.newDSO(path, undefined, runtime.loadWebAssemblyModule(module, flags, path, {}, 0));
    linked.refcount = Infinity;
    linked.global = false;
  }
  return { tableBefore, tableAfter: runtime.wasmTable.length, heapBase: heapBase(runtime) };
}

/** Throw unless the table of functions has the length that it had where the snapshot was made. */
export function checkTable(runtime: Runtime, expected: Layout): void {
  const { length } = runtime.wasmTable;
  if (length !== expected.tableBefore) {
    throw new Error(`the table of functions has ${length} entries, the snapshot's ${expected.tableBefore}`);
  }
}

/** Throw unless the libraries lie where they lay. */
export function checkLayout(found: Layout, expected: Layout): void {
  for (const key of ["tableBefore", "tableAfter", "heapBase"] as const) {
    if (found[key] !== expected[key]) {
      throw new Error(`the libraries lie elsewhere (${key} is ${found[key]}, the snapshot's ${expected[key]})`);
    }
  }
}

function heapBase(runtime: Runtime): number {
  const { __heap_base: base } = runtime.GOT;
  if (base === undefined) throw new Error("the linker does not say where the heap begins");
  return base.value;
}
