import { describe, expect, it } from "vitest";
import {
  dimensions,
  pixelsPerMm,
  type Project,
  roundLength,
  scaleBar,
} from "../../../../web/src/stage/still/still_scale";

/** Square on: 2 px for each mm, the room's origin at (500, 400). */
const project: Project = ([x, y]) => ({ x: 500 + x * 2000, y: 400 - y * 2000 });
const face = { centreM: [0, 0, 0.04] as const, widthMm: 300, heightMm: 200 };

describe("roundLength", () => {
  // derived: 1, 2 or 5 times a power of ten, in the unit; 25.4 mm are an inch.
  it.each([
    [99.9, "mm", 50],
    [100, "mm", 100],
    [260, "mm", 200],
    [0.7, "mm", 0.5],
    [130, "inch", 127],
    [126, "inch", 50.8],
  ] as const)("of at most %f mm in %s", (most, unit, expected) => {
    expect(roundLength(most, unit)).toBeCloseTo(expected, 9);
  });
});

describe("scaleBar", () => {
  it("is as long as its label says", () => {
    expect(pixelsPerMm(project, face)).toBeCloseTo(2, 9);
    // derived: 30 % of 1000 px are 300 px or 150 mm; the round length is 100 mm, 200 px.
    const bar = scaleBar(2, 1000, "mm");
    expect([bar.lengthMm, bar.lengthPx, bar.label]).toEqual([100, 200, "100 mm"]);
    expect(scaleBar(2, 1000, "inch").label).toBe("5 in");
  });

  it("measures along the width of a face seen aslant", () => {
    const aslant: Project = ([x, y]) => ({
      x: x * 1200,
      y: y * 1600 + x * 1600,
    });
    // derived: 1.2 and 1.6 px for each mm at right angles make 2.
    expect(pixelsPerMm(aslant, face)).toBeCloseTo(2, 9);
  });
});

describe("dimensions", () => {
  it("runs below the face and on its left, as long as the face", () => {
    const lines = dimensions(project, face, { widthPx: 1000, heightPx: 800 }, 20, "mm");
    // derived: the face reaches from 200 to 800 across and from 200 to 600 down; the lines lie 20 px outside.
    expect(lines).toEqual([
      { from: { x: 200, y: 620 }, to: { x: 800, y: 620 }, label: "300 mm" },
      { from: { x: 180, y: 600 }, to: { x: 180, y: 200 }, label: "200 mm" },
    ]);
  });

  it("stays on the picture's left when the face is seen from behind", () => {
    const behind: Project = ([x, y]) => ({
      x: 500 - x * 2000,
      y: 400 - y * 2000,
    });
    const [, upright] = dimensions(behind, face, { widthPx: 1000, heightPx: 800 }, 20, "inch");
    expect(upright).toMatchObject({
      from: { x: 180 },
      to: { x: 180 },
      label: "7.87 in",
    });
  });

  it("leaves out what does not fit", () => {
    expect(dimensions(project, face, { widthPx: 700, heightPx: 800 }, 20, "mm")).toHaveLength(1);
  });
});
