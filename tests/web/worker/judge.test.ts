import type { PyodideAPI } from "pyodide";
import { expect, test } from "vitest";
import { judgeOf } from "../../../web/src/worker/judge";

class PythonError extends Error {
  constructor(
    message: string,
    readonly type: string,
  ) {
    super(message);
  }
}

/** A Python that, once it has failed, refuses every question, as Pyodide does. */
function failing() {
  const state = { failed: false };
  const python = {
    get ffi() {
      if (state.failed) throw new Error("Pyodide already fatally failed and can no longer be used.");
      return { PythonError };
    },
  } as unknown as PyodideAPI;
  return { python, state };
}

test("a fatal error is judged although Python answers no more", () => {
  const { python, state } = failing();
  const judge = judgeOf(python);
  state.failed = true;
  expect(judge(new WebAssembly.RuntimeError("unreachable"))).toEqual({
    kind: "fatal",
    message: "RuntimeError: unreachable",
  });
});

test("an error of Python's is judged by its last line, want of memory in plain words", () => {
  const judge = judgeOf(failing().python);
  const traceback = "Traceback (most recent call last):\nValueError: no\n";
  expect(judge(new PythonError(traceback, "ValueError"))).toEqual({
    kind: "raised",
    message: "ValueError: no",
    traceback,
  });
  expect(judge(new PythonError("MemoryError\n", "MemoryError"))).toMatchObject({
    message: "not enough memory for a canvas of this size",
  });
});
