import { expect, it } from "vitest";
import { bareCanvas } from "../../../../../web/src/page/state/work/receive";
import { LAYOUT } from "../../jobs";

it("an empty canvas has the layout's shape and a place for each panel", () => {
  const panel = {
    number: 1,
    centre_mm: [0, 0] as [number, number],
    top_px: 0,
    bottom_px: 200,
  };
  const { pixels, widthPx, heightPx } = bareCanvas(LAYOUT, [
    panel,
    { ...panel, number: 2, top_px: 200, bottom_px: 400 },
  ]);
  // Derived: 200 rows for 387.9 mm are 155.1 columns for 300.9 mm.
  expect([widthPx, heightPx]).toEqual([155, 400]);
  expect(pixels.length).toBe(155 * 400 * 4);
  expect(new Set(Array.from(pixels.subarray(0, 4))).size).toBeGreaterThan(1);
  expect(pixels.subarray(-4)).toEqual(pixels.subarray(0, 4));
});
