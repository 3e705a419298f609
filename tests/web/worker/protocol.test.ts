import { expect, test } from "vitest";
import { isFromWorker, isToWorker } from "../../../web/src/worker/protocol";

test.each([
  [{ kind: "start", python: "http://127.0.0.1/py/", lock: "a", plain: false }],
  [{ kind: "call", id: 1, method: "hello", params: "{}" }],
  [
    {
      kind: "call",
      id: 1,
      method: "open",
      params: "{}",
      buffer: new ArrayBuffer(1),
    },
  ],
  [{ kind: "stop", id: 1 }],
])("the worker takes %o", (envelope) => {
  expect(isToWorker(envelope)).toBe(true);
});

test.each([
  [{ kind: "alive" }],
  [{ kind: "ready" }],
  [{ kind: "loading", done: 0.5, label: "numpy" }],
  [{ kind: "failed", message: "no network" }],
  [{ kind: "crashed", message: "out of memory" }],
  [{ kind: "progress", id: 1, text: "{}" }],
  [{ kind: "error", id: 1, text: "{}" }],
  [{ kind: "result", id: 1, text: "{}", buffers: [new ArrayBuffer(1)] }],
])("the page takes %o", (envelope) => {
  expect(isFromWorker(envelope)).toBe(true);
});

test.each([
  [undefined],
  [null],
  ["ready"],
  [{}],
  [{ kind: "other" }],
  [{ kind: "stop", id: "1" }],
  [{ kind: "start", python: "http://127.0.0.1/py/", lock: "a" }],
  [{ kind: "call", id: 1, method: "hello", params: {} }],
  [{ kind: "call", id: 1, method: "open", params: "{}", buffer: [1] }],
  [{ kind: "loading", done: "half", label: "numpy" }],
  [{ kind: "result", id: 1, text: "{}" }],
  [{ kind: "result", id: 1, text: "{}", buffers: [[1]] }],
  [{ kind: "error", id: 1 }],
])("neither takes %o", (envelope) => {
  expect(isToWorker(envelope)).toBe(false);
  expect(isFromWorker(envelope)).toBe(false);
});
