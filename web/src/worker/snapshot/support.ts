// Whether a browser can start from a snapshot at all, asked before anything is fetched.

/** A module with one empty function, `f`, that is also the only entry of a table, `t`. */
const PROBE = Uint8Array.from(
  [
    [0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0], // magic number and version
    [1, 4, 1, 0x60, 0, 0], // one type, a function of nothing to nothing
    [3, 2, 1, 0], // one function of that type
    [4, 4, 1, 0x70, 0, 1], // one table for one function
    [7, 9, 2, 1, 0x66, 0, 0, 1, 0x74, 1, 0], // exports f and t
    [9, 7, 1, 0, 0x41, 0, 0x0b, 1, 0], // f is the table's first entry
    [10, 4, 1, 2, 0, 0x0b], // the function's empty body
  ].flat(),
);

/** Throw where a table gives out another object than the function that it holds, as WebKit's does. Pyodide then enters each
 * such function twice, and all libraries lie elsewhere than where the snapshot was made. */
export function checkTablesKeepFunctions(): void {
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(PROBE));
  const { f, t } = exports;
  if (!(t instanceof WebAssembly.Table) || t.get(0) !== f) {
    throw new Error("this browser's tables give out other functions than they hold");
  }
}
