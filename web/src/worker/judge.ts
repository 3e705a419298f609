// Telling what went wrong in Python. After a fatal error Pyodide refuses every question, so that what is needed to judge it
// is taken while it starts.
import type { PyodideAPI } from "pyodide";
import { mark } from "../speech/say";
import type { Fault } from "./running";

/** How to judge what this Python throws. */
export function judgeOf(python: PyodideAPI): (thrown: unknown) => Fault {
  const { PythonError } = python.ffi;
  return (thrown) => {
    if (thrown instanceof PythonError) {
      const traceback = thrown.message;
      const lastLine = traceback.trimEnd().split("\n").at(-1) ?? thrown.type;
      const message = thrown.type === "MemoryError" ? mark("not enough memory for a canvas of this size") : lastLine;
      return { kind: "raised", message, traceback };
    }
    // Any other failure of WebAssembly (a trap, no memory, stack overflow) leaves Python unusable.
    return { kind: "fatal", message: String(thrown) };
  };
}
