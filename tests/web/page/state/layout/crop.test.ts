import { describe, expect, it } from "vitest";
import type { Crop } from "../../../../../web/src/contract/types";
import {
  CORNERS,
  cropSize,
  cropStep,
  drawCorner,
  keyedCrop,
  largestCrop,
  leftToBrowser,
  moveCrop,
  scaleCrop,
} from "../../../../../web/src/page/state/layout/crop";

const CROP: Crop = { x: 0.2, y: 0.3, width: 0.4, height: 0.2 };

/** Inside the picture, and of the same shape; to 1e-9, far below a pixel of any picture. */
function expectSound(crop: Crop, shape: number): void {
  expect(crop.x).toBeGreaterThanOrEqual(0);
  expect(crop.y).toBeGreaterThanOrEqual(0);
  expect(crop.x + crop.width).toBeLessThanOrEqual(1 + 1e-9);
  expect(crop.y + crop.height).toBeLessThanOrEqual(1 + 1e-9);
  expect(crop.width).toBeGreaterThan(0);
  expect(crop.width / crop.height).toBeCloseTo(shape, 9);
}

describe("the window on the picture", () => {
  it("is at its largest as wide or as high as the picture, in its middle", () => {
    expect(largestCrop(0.5)).toEqual({ x: 0.25, y: 0, width: 0.5, height: 1 });
    expect(largestCrop(2)).toEqual({ x: 0, y: 0.25, width: 1, height: 0.5 });
    expect(cropSize(largestCrop(1.7))).toBeCloseTo(1, 12);
  });

  it("moves as far as the picture goes and no further", () => {
    expect(moveCrop(CROP, 0.1, -0.1)).toEqual({
      ...CROP,
      x: 0.2 + 0.1,
      y: 0.3 - 0.1,
    });
    expect(moveCrop(CROP, 5, 5)).toEqual({ ...CROP, x: 0.6, y: 0.8 });
    expect(moveCrop(CROP, -5, -5)).toEqual({ ...CROP, x: 0, y: 0 });
  });

  it("scales about a point that stays where it is", () => {
    const scaled = scaleCrop(CROP, 0.5, { x: 0, y: 1 });
    // Derived: half as large, lower-left corner kept: y = 0.3 + 0.2 - 0.1.
    expect(scaled.x).toBeCloseTo(0.2, 12);
    expect(scaled.y).toBeCloseTo(0.4, 12);
    expect(scaled.width).toBeCloseTo(0.2, 12);
  });

  it("stays sound whatever is asked of it", () => {
    for (const factor of [1e-6, 0.3, 1, 1.9, 1e6]) expectSound(scaleCrop(CROP, factor), 2);
    for (const corner of CORNERS) {
      for (const x of [-3, 0, 0.2, 0.41, 1, 4]) {
        for (const y of [-3, 0, 0.35, 1, 4]) expectSound(drawCorner(CROP, corner, { x, y }), 2);
      }
    }
  });

  it("is drawn by a corner while the opposite one stays", () => {
    const drawn = drawCorner(CROP, "bottom-right", { x: 0.8, y: 0.1 });
    expect([drawn.x, drawn.y]).toEqual([0.2, 0.3]);
    // Derived: 0.8 - 0.2 wide, and half of that high.
    expect(drawn.width).toBeCloseTo(0.6, 12);
    const other = drawCorner(CROP, "top-left", { x: 0.4, y: 0.45 });
    expect(other.x + other.width).toBeCloseTo(0.6, 12);
    expect(other.y + other.height).toBeCloseTo(0.5, 12);
    // Derived: the pull across is 0.2, that down is 0.05 x 2 = 0.1; the larger decides.
    expect(other.width).toBeCloseTo(0.2, 12);
  });

  it("goes against the hand that drags the picture under the canvas", () => {
    // Derived: 30 of 300 mm is a tenth of a window 0.4 wide.
    const step = cropStep(CROP, { across_mm: 30, down_mm: -50 }, { width: 300, height: 200 });
    expect(step.across).toBeCloseTo(-0.04, 12);
    expect(step.down).toBeCloseTo(0.05, 12);
  });
});

const KEYED = { x: 0.3, y: 0.3, width: 0.4, height: 0.4 };
const key = (name: string, shiftKey = false) => keyedCrop(KEYED, { key: name, shiftKey });

it("moves the window by keys, further with Shift", () => {
  expect(key("ArrowRight")).toEqual({ ...KEYED, x: 0.305 });
  expect(key("ArrowUp", true)).toEqual({ ...KEYED, y: 0.25 });
});

it("scales the window about its middle by keys", () => {
  const larger = key("-");
  const smaller = key("+");
  if (typeof larger !== "object" || typeof smaller !== "object") throw new Error("a window was expected");
  expect(larger.width).toBeGreaterThan(0.4);
  expect(smaller.width).toBeLessThan(0.4);
  expect(larger.x + larger.width / 2).toBeCloseTo(0.5, 12);
});

it("asks for the largest window by 0, and leaves other keys alone", () => {
  expect(key("0")).toBeUndefined();
  expect(key("Tab")).toBe("ignored");
  expect(key("a")).toBe("ignored");
});

it("leaves a browser's own keys to it, as those of its zoom", () => {
  for (const name of ["0", "+", "-", "ArrowLeft"]) {
    for (const held of ["ctrlKey", "metaKey", "altKey"]) {
      expect(keyedCrop(KEYED, { key: name, shiftKey: false, [held]: true })).toBe("ignored");
    }
  }
});

it("follows a finger up and down wherever it can move that way", () => {
  expect(leftToBrowser({ x: 0.1, y: 0, width: 0.8, height: 1 })).toContain("pan-y");
  // The largest of its shape, as wide as the picture.
  expect(leftToBrowser({ x: 0, y: 0.2, width: 1, height: 0.6 })).not.toContain("pan-y");
});
