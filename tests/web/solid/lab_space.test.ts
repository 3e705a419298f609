import { describe, expect, it } from "vitest";
import { labPoint, labPoints, reachOf } from "../../../web/src/solid/lab_space";

describe("labPoint", () => {
  it("puts L* up, a* to the right and b* away from the viewer", () => {
    const [x0, y0, z0] = labPoint(0, 0, 0);
    const step = (lightness: number, a: number, b: number): number[] => {
      const [x, y, z] = labPoint(lightness, a, b);
      return [x - x0, y - y0, z - z0].map((value) => Math.round(value * 1e9) / 1e9 + 0);
    };
    expect(step(100, 0, 0)).toEqual([0, 1, 0]);
    expect(step(0, 100, 0)).toEqual([1, 0, 0]);
    expect(step(0, 0, 100)).toEqual([0, 0, -1]);
  });

  it("keeps the sides of a surface", () => {
    const [o, l, a, b] = [labPoint(0, 0, 0), labPoint(1, 0, 0), labPoint(0, 1, 0), labPoint(0, 0, 1)];
    const way = (to: readonly number[]): number[] => to.map((value, k) => value - (o[k] ?? 0));
    const [[ax = 0, ay = 0, az = 0], [bx = 0, by = 0, bz = 0], up] = [way(a), way(b), way(l)];
    const cross = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
    // derived: a* x b* points along L* in the mesh's own terms, so it must here.
    expect(cross.reduce((sum, value, k) => sum + value * (up[k] ?? 0), 0)).toBeCloseTo(1e-6, 12);
  });
});

describe("labPoints", () => {
  it("does the same for many", () => {
    const seen = labPoints(new Float32Array([50, 10, -20, 0, 0, 0]));
    // A float32 near 20 has steps of 2e-6.
    labPoint(50, 10, -20).forEach((value, k) => expect(seen[k]).toBeCloseTo(value, 5));
  });
});

describe("reachOf", () => {
  it.each([
    [[50, 81, -3], 100],
    [[50, 3, -80], 80],
    [[50, 5, 5], 60],
    [[50, 300, 0], 140],
  ])("of %o is %d", (lab, reach) => {
    expect(reachOf([new Float32Array(0), new Float32Array(lab)])).toBe(reach);
  });
});
