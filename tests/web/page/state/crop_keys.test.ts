import { expect, it } from "vitest";
import { keyedCrop } from "../../../../web/src/page/state/crop_keys";

const CROP = { x: 0.3, y: 0.3, width: 0.4, height: 0.4 };
const key = (name: string, shiftKey = false) => keyedCrop(CROP, { key: name, shiftKey });

it("moves the window by keys, further with Shift", () => {
  expect(key("ArrowRight")).toEqual({ ...CROP, x: 0.305 });
  expect(key("ArrowUp", true)).toEqual({ ...CROP, y: 0.25 });
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
