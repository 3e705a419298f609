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
  weighsG: 2000,
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

  it("leave the place of each ring's strap free", () => {
    // derived: of 240 x 180 mm with bars of 39.6 mm the left strap lies from 13.552 to 24.552 mm and from 115.5 to 124.5 mm up.
    const small = staples({ ...sizes, widthMm: 240, heightMm: 180, depthMm: 32, barWidthMm: 39.6 });
    const upright = small.filter(({ turnRad }) => turnRad === Math.PI / 2);
    expect(upright.some(({ y }) => Math.abs(y - 120) < 9.5)).toBe(true);
    for (const { x, y } of upright) {
      const inward = Math.min(x, 240 - x);
      const isUnder = Math.abs(y - 120) < 4.5 + 5 && inward > 13.552 - 0.55 && inward < 24.552 + 0.55;
      expect(isUnder).toBe(false);
      expect(inward).toBeGreaterThan(10);
    }
  });

  it("go into the wood where the turn-over is wider than the bars", () => {
    for (const { x, y } of staples({ ...sizes, turnoverMm: 90 })) {
      expect(Math.min(x, y, sizes.widthMm - x, sizes.heightMm - y)).toBeLessThan(sizes.barWidthMm);
    }
  });

  it("hold a short bar in its middle", () => {
    // Derived: of 100 mm nothing is left between two corners of 71 mm.
    const short = staples({ ...sizes, widthMm: 100, heightMm: 100, barWidthMm: 22 });
    const middles = short.filter(({ onCorner }) => !onCorner);
    expect(middles.map(({ x, y, turnRad }) => (turnRad === 0 ? x : y))).toEqual([50, 50, 50, 50]);
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

  it("draw the wire up at one hook, and at two where the piece is wide", () => {
    const highest = (widthMm: number): readonly number[] => {
      const { positions } = fittings({ ...sizes, widthMm, turnoverMm: 0 });
      const points = Array.from({ length: positions.length / 3 }, (_, k) => positions.slice(3 * k, 3 * k + 2));
      const top = Math.max(...points.map((point) => point[1] ?? 0));
      return points.filter((point) => (point[1] ?? 0) > top - 0.5).map((point) => point[0] ?? 0);
    };
    const one = highest(600);
    expect(Math.max(...one) - Math.min(...one)).toBeLessThan(20);
    // derived: the rings of 900 mm are 900 - 2 x 0.62 x 40 = 850.4 mm apart, so the two hooks 283.5 mm.
    const two = highest(900);
    expect(Math.max(...two) - Math.min(...two)).toBeCloseTo(283.5, -1);
  });

  it("have no wire where the core's rules leave it out", () => {
    const wired = (more: Partial<typeof sizes>): boolean => {
      const { positions } = fittings({ ...sizes, ...more, turnoverMm: 0 });
      const middle = (more.widthMm ?? sizes.widthMm) / 2;
      return positions.some((x, k) => k % 3 === 0 && Math.abs(x - middle) < 30);
    };
    expect(wired({})).toBe(true);
    expect(wired({ weighsG: 10_000 })).toBe(true);
    expect(wired({ weighsG: 10_001 })).toBe(false);
    // Derived: 33.3 - 22 - 6 = 5.3 mm up over 286.4 mm pulls with 27 times the weight.
    expect(wired({ widthMm: 600, heightMm: 100, barWidthMm: 22 })).toBe(false);
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
