import { describe, expect, it } from "vitest";
import { checkStillSize, fromTheTop, tiles } from "../../../../web/src/stage/still/still";

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

it("refuses more pixels than a browser's canvas holds", () => {
  expect(() => checkStillSize(12000, 12000, 12000)).toThrow(
    "still: expected at most 100000000 pixels in all, got 144000000",
  );
});

describe("tiles", () => {
  it("cuts a picture without gap or overlap", () => {
    const cut = tiles(5000, 2100, 2048);
    expect(cut.map(({ left, top, width, height }) => [left, top, width, height])).toEqual([
      [0, 0, 2048, 2048],
      [2048, 0, 2048, 2048],
      [4096, 0, 904, 2048],
      [0, 2048, 2048, 52],
      [2048, 2048, 2048, 52],
      [4096, 2048, 904, 52],
    ]);
    expect(cut.reduce((sum, { width, height }) => sum + width * height, 0)).toBe(5000 * 2100);
  });

  it("leaves a small picture whole", () => {
    expect(tiles(640, 480, 2048)).toEqual([{ left: 0, top: 0, width: 640, height: 480 }]);
  });
});

describe("fromTheTop", () => {
  it("turns the rows over and keeps each as it is", () => {
    const upside = new Uint8Array([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
    expect([...fromTheTop(upside, 2, 2)]).toEqual([9, 10, 11, 12, 13, 14, 15, 16, 1, 2, 3, 4, 5, 6, 7, 8]);
  });
});
