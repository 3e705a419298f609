// Putting a kept memory in the place of the one with which Python would start.
import type { MemoryFacts } from "./manifest";
import type { References, Runtime } from "./runtime";

/** Fill the memory of a runtime that has not run yet, and give Python's handles their libraries again. */
export function restoreMemory(memory: Uint8Array, facts: MemoryFacts, runtime: Runtime): References {
  const { HEAPU8: heap, LDSO: linker } = runtime;
  // Linking and starting have written below this; all above is zero already.
  heap.fill(0, 0, runtime._sbrk(0));
  let offset = 0;
  for (const [address, length] of facts.runs) {
    heap.set(memory.subarray(offset, offset + length), address);
    offset += length;
  }
  if (offset !== memory.length) throw new Error("the snapshot's memory has another length than its list");
  for (const [handle, path] of facts.handles) {
    const library = linker.loadedLibsByName[path];
    if (library === undefined) throw new Error(`${path} is not linked`);
    linker.loadedLibsByHandle[handle] = library;
  }
  return facts.references;
}
