import { expect, test } from "vitest";
import { checkLayout, checkTable, linkLibraries } from "../../../../web/src/worker/snapshot/libraries";
import { fakeRuntime } from "./fake_runtime";

/** The smallest module: published, WebAssembly core specification 5.5.16, magic number and version. */
const module = new WebAssembly.Module(new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]));
const libraries = [
  { path: "/b.so", module },
  { path: "/a.so", module },
];

test("libraries are linked in the order that is given, and stay", () => {
  const runtime = fakeRuntime();
  // derived: two libraries of 5 functions after 10, and of 32 bytes after 64.
  expect(linkLibraries(libraries, runtime)).toEqual({
    tableBefore: 10,
    tableAfter: 20,
    heapBase: 128,
  });
  expect(runtime.linked).toEqual(["/b.so", "/a.so"]);
  expect(runtime.LDSO.loadedLibsByName["/a.so"]).toEqual({
    name: "/a.so",
    refcount: Infinity,
    global: false,
  });
});

test("a table of another length is refused before anything is linked", () => {
  const expected = { tableBefore: 11, tableAfter: 21, heapBase: 128 };
  expect(() => checkTable(fakeRuntime(), expected)).toThrow("the table of functions has 10 entries, the snapshot's 11");
});

test.each(["tableBefore", "tableAfter", "heapBase"] as const)("another %s is refused", (key) => {
  const found = linkLibraries(libraries, fakeRuntime());
  expect(() => checkLayout(found, { ...found })).not.toThrow();
  expect(() => checkLayout(found, { ...found, [key]: 1 })).toThrow(`(${key} is ${found[key]}, the snapshot's 1)`);
});
