import { describe, expect, it } from "vitest";
import { checkStillSize, fromTheTop } from "../../../web/src/stage/still";

describe("checkStillSize", () => {
  it("takes what can be drawn", () => {
    expect(() => checkStillSize(1, 8192, 8192)).not.toThrow();
  });

  it.each([
    [0, 10, "still width: expected a whole number of pixels from 1 to 8192, got 0"],
    [10, 8193, "still height: expected a whole number of pixels from 1 to 8192, got 8193"],
    [10.5, 10, "still width: expected a whole number of pixels from 1 to 8192, got 10.5"],
    [10, Number.NaN, "still height: expected a whole number of pixels from 1 to 8192, got NaN"],
  ])("refuses %d x %d", (width, height, message) => {
    expect(() => checkStillSize(width, height, 8192)).toThrow(message);
  });
});

describe("fromTheTop", () => {
  it("turns the rows over and keeps each as it is", () => {
    const upside = new Uint8Array([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
    expect([...fromTheTop(upside, 2, 2)]).toEqual([9, 10, 11, 12, 13, 14, 15, 16, 1, 2, 3, 4, 5, 6, 7, 8]);
  });
});
