import { expect, test } from "vitest";
import { bytesOf, floatsOf, halvesOf, indicesOf } from "../../../web/src/contract/buffers";
import type { Buffer as Sent } from "../../../web/src/contract/types";

const uv: Sent = {
  place: 1,
  shape: [2, 2],
  dtype: "float32",
  state: "fraction",
};
const buffers = [new ArrayBuffer(0), new Float32Array([0, 0.5, 1, 0.25]).buffer];

test("a view reads what was sent, without a copy", () => {
  const floats = floatsOf(uv, buffers);
  expect([...floats]).toEqual([0, 0.5, 1, 0.25]);
  expect(floats.buffer).toBe(buffers[1]);
});

test("indices and bytes are read by their own width", () => {
  const sent: Sent = {
    place: 0,
    shape: [1, 2],
    dtype: "uint32",
    state: "index",
  };
  expect([...indicesOf(sent, [new Uint32Array([7, 8]).buffer])]).toEqual([7, 8]);
  const halves: Sent = {
    place: 0,
    shape: [2],
    dtype: "uint16",
    state: "half_floats",
  };
  expect([...halvesOf(halves, [new Uint16Array([0x3c00, 7]).buffer])]).toEqual([0x3c00, 7]);
  const file: Sent = { place: 0, shape: [3], dtype: "uint8", state: "file" };
  expect([...bytesOf(file, [new Uint8Array([1, 2, 3]).buffer])]).toEqual([1, 2, 3]);
});

test.each([
  ["did not come", uv, []],
  ["has 16 bytes, not 24", { ...uv, shape: [3, 2] }, buffers],
  ["holds uint8, not float32", { ...uv, dtype: "uint8" as const }, buffers],
])("a buffer that %s is refused", (message, sent, given) => {
  expect(() => floatsOf(sent, given)).toThrow(`buffer 1 ${message}`);
});
