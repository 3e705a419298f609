import { describe, expect, it } from "vitest";
import { fittings, staples } from "../../../../web/src/stage/piece/fittings";
import { extent } from "../../../../web/src/stage/piece/flat_triangles";

const sizes = {
  widthMm: 400,
  heightMm: 300,
  depthMm: 38,
  turnoverMm: 25,
  barWidthMm: 40,
  bulkMm: 2.25,
};

describe("staples", () => {
  const all = staples(sizes);
  const along = all.filter(({ onCorner }) => !onCorner);

  it("sit about every 50 mm along the bars, clear of the folded corners", () => {
    // common practice: 50 mm. derived: the bars of 400 mm are stapled from 38 + 25 + 5 + 3 = 71 to 329 mm: 258 mm in 6 steps of 43.
    const lower = along.filter(({ y, turnRad }) => turnRad === 0 && y < 100).map(({ x }) => x);
    expect(lower).toHaveLength(7);
    expect(lower[0]).toBe(71);
    expect((lower[1] ?? 0) - (lower[0] ?? 0)).toBeCloseTo(43, 9);
    expect(lower.at(-1)).toBe(329);
  });

  it("hold the turn-over, never the bare wood", () => {
    for (const { x, y } of all) {
      const inward = Math.min(x, y, sizes.widthMm - x, sizes.heightMm - y);
      expect(inward).toBeGreaterThan(1);
      expect(inward).toBeLessThan(sizes.turnoverMm);
    }
    expect(all.filter(({ onCorner }) => onCorner)).toHaveLength(4);
  });

  it("are left out where there is no turn-over to hold", () => {
    expect(staples({ ...sizes, turnoverMm: 5 })).toEqual([]);
  });
});

describe("fittings", () => {
  it("stay between the back of the bars and the wall, and inside the face", () => {
    const { low, high } = extent(fittings(sizes).positions);
    // derived: the bars' back is at -38; the wall is 2 mm and the bulk of 2.25 mm behind it.
    expect(high[2]).toBeLessThan(-37);
    expect(low[2]).toBeGreaterThan(-38 - 2 - 2.25);
    expect(Math.min(low[0], low[1])).toBeGreaterThan(0);
    expect(high[0]).toBeLessThan(400);
    expect(high[1]).toBeLessThan(300);
  });

  it("hang small pieces from small rings", () => {
    const small = fittings({
      ...sizes,
      widthMm: 90,
      heightMm: 60,
      barWidthMm: 13,
      depthMm: 18,
      turnoverMm: 10,
    });
    const { low, high } = extent(small.positions);
    expect(Math.min(low[0], low[1])).toBeGreaterThan(0);
    expect(high[0]).toBeLessThan(90);
    expect(high[1]).toBeLessThan(60);
  });
});
