import { expect, test } from "vitest";
import { mountPack, ONE_DATE_MS } from "../../../../web/src/worker/snapshot/pack";
import { fakeRuntime } from "./fake_runtime";

function pack(list: unknown, contents: string): Uint8Array {
  const listed = new TextEncoder().encode(JSON.stringify(list));
  const length = new Uint8Array(4);
  new DataView(length.buffer).setUint32(0, listed.length, true);
  // It may lie anywhere in a buffer.
  return Uint8Array.of(9, 9, 9, ...length, ...listed, ...new TextEncoder().encode(contents)).subarray(3);
}

test("files are slices of the pack, in folders that are made once, all of one date", () => {
  const list = [
    ["/lib/a/one.txt", 0, 3],
    ["/lib/a/empty", 3, 0],
    ["/lib/b/two.txt", 3, 2],
  ];
  const { folders, FS } = fakeRuntime();
  const packed = pack(list, "abcde");
  mountPack(packed, FS);
  expect([...folders.keys()]).toEqual(["/lib/a", "/lib/b"]);
  const one = folders.get("/lib/a")?.children.get("one.txt");
  const two = folders.get("/lib/b")?.children.get("two.txt");
  expect(new TextDecoder().decode(one?.contents)).toBe("abc");
  expect(new TextDecoder().decode(two?.contents)).toBe("de");
  expect(two?.contents.buffer).toBe(packed.buffer);
  expect(two?.usedBytes).toBe(2);
  expect(folders.get("/lib/a")?.children.get("empty")?.usedBytes).toBe(0);
  expect([two?.mtime, folders.get("/lib/b")?.mtime]).toEqual([ONE_DATE_MS, ONE_DATE_MS]);
});

test.each([[{}], [[["/a", 0]]], [[[1, 0, 0]]]])("a pack whose list is %o is refused", (list) => {
  expect(() => mountPack(pack(list, ""), fakeRuntime().FS)).toThrow("the pack's list is none");
});
