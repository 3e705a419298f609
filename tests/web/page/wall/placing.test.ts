import { describe, expect, it } from "vitest";
import { heightMiddle, numberPlace, outside, place } from "../../../../web/src/page/wall/placing";
import { sheetPlacement } from "../../../../web/src/page/state/layout/sheet_shown";
import type { Layout } from "../../../../web/src/contract/types";
import { LAYOUT } from "../jobs";

const DRAWING = { width: 700, height: 1000 };

/** The canvases of the first sheet on the drawing. */
function onDrawing(layout: Layout, width_mm: number, number = 0) {
  return place(sheetPlacement(layout, number), layout.flat.canvas_mm, width_mm, DRAWING, 40);
}

function alone(layout: Layout, width_mm: number) {
  const [first] = onDrawing(layout, width_mm);
  if (first === undefined) throw new Error("there is always one canvas");
  return first.placing;
}

describe("the canvas on the drawing of the sheet", () => {
  it("lies to scale and where the core has placed it", () => {
    const placing = alone(LAYOUT, 329);
    // Derived: 620 px for 329 mm, 920 px for 483 mm; the smaller scale holds.
    expect(placing.scale).toBeCloseTo(620 / 329, 12);
    expect(placing.canvas.x - placing.sheet.x).toBeCloseTo(14.05 * placing.scale, 9);
    expect(placing.canvas.width).toBeCloseTo(300.9 * placing.scale, 9);
    const corner = placing.point(300.9, 387.9);
    expect(corner.x).toBeCloseTo(placing.canvas.x + placing.canvas.width, 9);
    expect(corner.y).toBeCloseTo(placing.canvas.y + placing.canvas.height, 9);
  });

  it("is turned clockwise where it lies turned: its top left becomes the top right", () => {
    const turned = { ...LAYOUT, sheet: { ...LAYOUT.sheet, turned: true } };
    const placing = alone(turned, 483);
    expect(placing.canvas.width).toBeCloseTo(387.9 * placing.scale, 9);
    expect(placing.point(0, 0)).toEqual({
      x: placing.canvas.x + placing.canvas.width,
      y: placing.canvas.y,
    });
    // A step and the points it leads between agree.
    const [from, to] = [placing.point(10, 20), placing.point(13, 16)];
    const step = placing.step(to.x - from.x, to.y - from.y);
    expect(step.across_mm).toBeCloseTo(3, 9);
    expect(step.down_mm).toBeCloseTo(-4, 9);
  });

  it("keeps a canvas larger than the sheet within the drawing", () => {
    const short = {
      ...LAYOUT,
      sheet: { ...LAYOUT.sheet, position_mm: [-50, -20] as [number, number] },
    };
    const { canvas } = alone(short, 200);
    expect(canvas.x).toBeGreaterThanOrEqual(40 - 1e-9);
    expect(canvas.y).toBeGreaterThanOrEqual(40 - 1e-9);
  });
});

describe("a plan of several canvases", () => {
  const plan: NonNullable<Layout["plan"]> = {
    sheets: [
      [
        { panel: 1, position_mm: [0, 0] },
        { panel: 2, position_mm: [300.9, 0] },
      ],
      [{ panel: 3, position_mm: [150, 0] }],
    ],
    turned: false,
    length_mm: 400,
  };

  it("has the height's figure beside the sheet, not over the width's", () => {
    const phone = { width: 390, height: 130 };
    const [first] = place(sheetPlacement({ ...LAYOUT, plan }, 0), [300.9, 60], 610, phone, 26);
    if (first === undefined) throw new Error("there are two canvases");
    // Derived: the canvas is 60 mm x 0.195 px = 11.7 px high at the sheet's upper edge; eight letters take 76.
    expect(first.placing.canvas.height).toBeLessThan(12);
    expect(heightMiddle(first.placing, 8)).toBeCloseTo(first.placing.sheet.y + 38, 9);
    const [tall] = place(sheetPlacement({ ...LAYOUT, plan }, 0), LAYOUT.flat.canvas_mm, 610, DRAWING, 40);
    if (tall === undefined) throw new Error("there are two canvases");
    expect(heightMiddle(tall.placing, 8)).toBe(tall.placing.canvas.y + tall.placing.canvas.height / 2);
  });

  it.each([252, 130])("has each number clear of the crop's handles, on a phone %i px high too", (height) => {
    // A narrow face on deep bars.
    const flat = { ...LAYOUT.flat, columns_mm: [0, 19, 110, 190.9, 281.9, 300.9] };
    const phone = { width: 390, height };
    const placed = place(sheetPlacement({ ...LAYOUT, plan }, 0), flat.canvas_mm, 610, phone, 26);
    for (const { placing } of placed) {
      // A figure is 10 px wide and 17 high, 4 of them below its line; a handle is seen as a square of 11 px.
      const { x, y } = numberPlace(placing);
      const handles = [2, 3].flatMap((column) =>
        [2, 3].map((row) => placing.point(flat.columns_mm[column] ?? 0, flat.rows_mm[row] ?? 0)),
      );
      expect(handles.filter((at) => Math.abs(at.x - x) < 11 && Math.abs(at.y - (y - 4.5)) < 14)).toEqual([]);
      expect(y).toBeLessThan(placing.canvas.y + placing.canvas.height);
    }
  });

  it("lays every canvas of the sheet that is looked at side by side, to one scale", () => {
    const placed = onDrawing({ ...LAYOUT, plan }, 610);
    expect(placed.map(({ panel }) => panel)).toEqual([1, 2]);
    const [first, second] = placed.map(({ placing }) => placing);
    // Derived: 620 px for 610 mm; the second begins where the first ends.
    expect(first?.scale).toBeCloseTo(620 / 610, 12);
    expect(second?.canvas.x).toBeCloseTo((first?.canvas.x ?? 0) + (first?.canvas.width ?? 0), 9);
    expect(onDrawing({ ...LAYOUT, plan }, 610, 1).map(({ panel }) => panel)).toEqual([3]);
  });
});

describe("what does not fit", () => {
  const area = (rects: readonly { width: number; height: number }[]): number =>
    rects.reduce((sum, { width, height }) => sum + width * height, 0);

  it("is everything of the canvas that is not on the sheet, and nothing twice", () => {
    const inner = { x: -10, y: -5, width: 120, height: 90 };
    const outer = { x: 0, y: 0, width: 100, height: 70 };
    // Derived: 120 x 90 less the 100 x 70 that lies on it.
    expect(area(outside(inner, outer))).toBeCloseTo(120 * 90 - 100 * 70, 9);
  });

  it("is nothing where all of it fits", () => {
    expect(outside({ x: 1, y: 1, width: 5, height: 5 }, { x: 0, y: 0, width: 10, height: 10 })).toEqual([]);
  });
});
