import { describe, expect, it } from "vitest";
import { bars, barWidth } from "../../../../web/src/stage/piece/bars";
import { extent } from "../../../../web/src/stage/piece/flat_triangles";

const sizes = { widthMm: 400, heightMm: 300, depthMm: 38 };

describe("barWidth", () => {
  it("is 40 mm, and less on a small face", () => {
    // common practice, no source: about 40 mm; derived: 0.22 x 100 mm = 22 mm.
    expect(barWidth(400, 300)).toBe(40);
    expect(barWidth(100, 300)).toBe(22);
    // Derived: 0.22 x 170 = 37.4 mm, and no bar is sold by tenths.
    expect(barWidth(240, 170)).toBe(37);
  });
});

describe("bars", () => {
  const mesh = bars(sizes);
  const corner = (i: number): number[] => [...mesh.positions.slice(i * 3, i * 3 + 3)];
  const normal = (i: number): number[] => [...mesh.normals.slice(i * 3, i * 3 + 3)];
  const corners = mesh.positions.length / 3;

  it("stays inside the canvas with room all round", () => {
    const { low, high } = extent(mesh.positions);
    // derived: 0.4 mm inside the box of face and depth on every side.
    [0.4, 0.4, -37.6].forEach((value, axis) => expect(low[axis]).toBeCloseTo(value, 4));
    [399.6, 299.6, -0.4].forEach((value, axis) => expect(high[axis]).toBeCloseTo(value, 4));
  });

  it("turns its triangles outwards, as the normals say", () => {
    for (let i = 0; i < corners; i += 3) {
      const [a, b, c, n] = [corner(i), corner(i + 1), corner(i + 2), normal(i)];
      const u = a.map((v, k) => (b[k] ?? 0) - v);
      const v = a.map((w, k) => (c[k] ?? 0) - w);
      const at = (list: number[], k: number): number => list[k] ?? 0;
      const cross = [
        at(u, 1) * at(v, 2) - at(u, 2) * at(v, 1),
        at(u, 2) * at(v, 0) - at(u, 0) * at(v, 2),
        at(u, 0) * at(v, 1) - at(u, 1) * at(v, 0),
      ];
      const length = Math.hypot(...cross);
      cross.forEach((value, k) => expect(value / length).toBeCloseTo(at(n, k), 4));
    }
  });

  it("encloses the volume of four mitred bars", () => {
    // derived: divergence theorem, sum of a.(b x c) / 6 over all triangles. Section of a bar, shoelace over
    // (0.4,-0.4) (6,-0.4) (40,-4.4) (40,-37.6) (0.4,-37.6): area = 39.6 x 37.2 - (34 x 4) / 2 = 1405.12 mm2. A mitred
    // bar of outer length L holds the integral of (L - 2 u) over its section: L A - 2 A u_c. The first moment of u is
    // 39.6 x 37.2 x 20.2 less that of the triangle cut off (68 mm2 at u = 6 + 34 x 2/3 = 28.667): 27807.7.
    // All four bars: 2 (400 + 300) A - 8 x 27807.7 = 1967168 - 222462 = 1744706 mm3.
    const A = 39.6 * 37.2 - 68;
    const moment = 39.6 * 37.2 * 20.2 - 68 * (6 + (34 * 2) / 3);
    const expected = 1400 * A - 8 * moment;
    let volume = 0;
    for (let i = 0; i < corners; i += 3) {
      const [[ax = 0, ay = 0, az = 0], [bx = 0, by = 0, bz = 0], [cx = 0, cy = 0, cz = 0]] = [
        corner(i),
        corner(i + 1),
        corner(i + 2),
      ];
      volume += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    }
    expect(expected).toBeCloseTo(1744706, -1);
    expect(Math.abs(volume - expected)).toBeLessThan(2);
  });
});

describe("bars of a long span", () => {
  const numbers = (widthMm: number, heightMm: number): Set<number> => {
    const { grain } = bars({ widthMm, heightMm, depthMm: 38 });
    return new Set(Array.from({ length: grain.length / 3 }, (_, i) => grain[i * 3 + 2] ?? -1));
  };

  it("have a brace across every span of more than 600 mm", () => {
    // common practice: braces 4 (upright) and 5 (lying).
    expect(numbers(600, 600)).toEqual(new Set([0, 1, 2, 3]));
    expect(numbers(700, 500)).toEqual(new Set([0, 1, 2, 3, 4]));
    expect(numbers(500, 700)).toEqual(new Set([0, 1, 2, 3, 5]));
    expect(numbers(900, 700)).toEqual(new Set([0, 1, 2, 3, 4, 5]));
  });

  it("have so many braces that no stretch is longer than 600 mm, and bars as wide as the job says", () => {
    // derived: 1300 mm take two upright braces, at 1300 / 3 and 2600 / 3 mm, half of 35 mm to either side.
    const { positions, grain, barWidthMm } = bars({
      widthMm: 1300,
      heightMm: 500,
      depthMm: 38,
      barWidthMm: 55,
    });
    expect(barWidthMm).toBe(55);
    const xs = new Set<number>();
    for (let i = 0; i < positions.length; i += 3) if (grain[i + 2] === 4) xs.add(Math.round(positions[i] ?? 0));
    // Math.round of 415.83, 450.83, 849.17, 884.17.
    expect([...xs].toSorted((a, b) => a - b)).toEqual([416, 451, 849, 884]);
  });

  it("keep the braces off the canvas and inside the back", () => {
    const { positions, grain } = bars({
      widthMm: 900,
      heightMm: 700,
      depthMm: 38,
    });
    for (let i = 0; i < positions.length; i += 3) {
      if ((grain[i + 2] ?? 0) < 4) continue;
      // derived: 18 mm deep from the back at -37.6, so they end 19.6 mm behind the canvas.
      expect(positions[i + 2] ?? 0).toBeGreaterThanOrEqual(-37.6 - 1e-4);
      expect(positions[i + 2] ?? 0).toBeLessThanOrEqual(-19.6 + 1e-4);
    }
  });
});
