import { expect, test } from "vitest";
import type { MemoryFacts } from "../../../../web/src/worker/snapshot/manifest";
import { restoreMemory } from "../../../../web/src/worker/snapshot/memory";
import { fakeRuntime } from "./fake_runtime";

const facts: MemoryFacts = {
  buildId: "a",
  layout: { tableBefore: 10, tableAfter: 10, heapBase: 64 },
  heap: 256,
  runs: [
    [8, 2],
    [100, 1],
  ],
  handles: [[500, "/a.so"]],
  references: { hiwireKeys: [], immortalKeys: ["a"] },
};

function withLibrary() {
  const runtime = fakeRuntime();
  const library = runtime.newDSO("/a.so", undefined, {});
  return { runtime, library };
}

test("the stretches lie where they lay, zeros between them, and handles find their libraries", () => {
  const { runtime, library } = withLibrary();
  expect(restoreMemory(Uint8Array.of(1, 2, 3), facts, runtime)).toBe(facts.references);
  const expected = new Uint8Array(256);
  expected.set([1, 2], 8);
  expected.set([3], 100);
  expect(runtime.HEAPU8).toEqual(expected);
  expect(runtime.LDSO.loadedLibsByHandle[500]).toBe(library);
});

test("a memory that is longer or shorter than its list is refused", () => {
  for (const memory of [Uint8Array.of(1, 2, 3, 4), Uint8Array.of(1)]) {
    expect(() => restoreMemory(memory, facts, withLibrary().runtime)).toThrow("another length than its list");
  }
});

test("a handle of a library that is not linked is refused", () => {
  expect(() => restoreMemory(Uint8Array.of(1, 2, 3), facts, fakeRuntime())).toThrow("/a.so is not linked");
});
