import { describe, expect, it } from "vitest";
import { frameMs, withoutAlpha } from "../../../../../web/src/page/state/output/turntable";

describe("withoutAlpha", () => {
  it("keeps red, green and blue and begins where it is told", () => {
    const out = new Uint8Array(9).fill(9);
    withoutAlpha(new Uint8Array([1, 2, 3, 255, 4, 5, 6, 255]), out, 3);
    expect([...out]).toEqual([9, 9, 9, 1, 2, 3, 4, 5, 6]);
  });
});

describe("frameMs", () => {
  // derived: 4 s in 36 frames are 111.1 ms; the core takes 20 to 1000 ms.
  it.each([
    [4, 36, 111],
    [1, 72, 20],
    [60, 24, 1000],
  ])("%d s in %d frames", (seconds, frames, ms) => {
    expect(frameMs(seconds, frames)).toBe(ms);
  });
});
