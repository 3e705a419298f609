// Each press grows others, and the contract's range is never left.
import { expect, test } from "vitest";
import { otherSeed } from "../../../../web/src/page/state/grown";

test("the next number is another one", () => {
  expect(otherSeed(1)).toBe(2);
});

test("after the contract's last number, 9999, comes its first", () => {
  expect(otherSeed(9998)).toBe(9999);
  expect(otherSeed(9999)).toBe(0);
});
