import { describe, expect, it } from "vitest";
import { neighbour } from "../../../../web/src/stage/room/beside";
import { extent } from "../../../../web/src/stage/piece/flat_triangles";

describe("neighbour", () => {
  it("is nothing when nothing is asked for", () => {
    expect(neighbour("nothing")).toBeUndefined();
  });

  it("has the sizes that it is there to show", () => {
    // common practice: a door leaf of 2000 x 800 mm in a frame of 70 mm, a person of 1700 mm.
    const door = neighbour("door");
    expect(door?.widthM).toBeCloseTo(0.8 + 2 * 0.07, 9);
    expect(door?.heightM).toBeCloseTo(2.07, 9);
    expect(neighbour("person")?.heightM).toBe(1.7);
  });

  it("has a seat 450 mm above the floor", () => {
    const chair = neighbour("chair");
    const positions = chair?.solids.positions ?? new Float32Array();
    const heights = new Set<number>();
    for (let i = 1; i < positions.length; i += 3) heights.add(Math.round((positions[i] ?? 0) * 1000));
    expect(heights.has(450)).toBe(true);
  });

  it("stands on the floor in front of the wall, within its width", () => {
    for (const what of ["door", "chair"] as const) {
      const standing = neighbour(what);
      const { low, high } = extent(standing?.solids.positions ?? new Float32Array());
      expect(low[1]).toBe(0);
      expect(low[2]).toBeGreaterThanOrEqual(0);
      expect(low[0]).toBeGreaterThan(-0.01);
      expect(high[0]).toBeLessThan((standing?.widthM ?? 0) + 0.01);
      expect(high[1]).toBeCloseTo(standing?.heightM ?? 0, 6);
    }
  });
});
