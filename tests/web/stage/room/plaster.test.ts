import { describe, expect, it } from "vitest";
import { plasterHeight, plasterTile, tileNoise } from "../../../../web/src/stage/room/plaster";

describe("tileNoise", () => {
  it("repeats without a seam", () => {
    const noise = tileNoise(5, 7, 1);
    for (let i = 0; i < 20; i += 1) {
      const v = i / 20;
      expect(noise(0, v)).toBeCloseTo(noise(1, v), 12);
      expect(noise(v, 0)).toBeCloseTo(noise(v, 1), 12);
      expect(noise(v - 1, v + 2)).toBeCloseTo(noise(v, v), 12);
    }
  });

  it("stays from 0 to 1 and differs with the seed", () => {
    const noise = tileNoise(9, 9, 3);
    const values = Array.from({ length: 400 }, (_, i) => noise((i % 20) / 20, i / 400));
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...values)).toBeLessThanOrEqual(1);
    expect(noise(0.1, 0.1)).not.toBe(tileNoise(9, 9, 4)(0.1, 0.1));
  });
});

describe("plasterTile", () => {
  const size = 64;
  const tile = plasterTile(size);
  const mean = tile.reduce((sum, value) => sum + value, 0) / tile.length;

  it("is the same each time", () => {
    expect(plasterTile(size)).toEqual(tile);
    expect(plasterHeight()(0.3, 0.7)).toBe(plasterHeight()(0.3, 0.7));
  });

  it("neither lightens nor darkens the wall by much, and is not plain", () => {
    expect(Math.abs(mean - 128)).toBeLessThan(12);
    expect(new Set(tile).size).toBeGreaterThan(20);
  });

  it("has no edge where it meets itself", () => {
    const step = (a: number, b: number): number => Math.abs((tile[a] ?? 0) - (tile[b] ?? 0));
    let inside = 0;
    let seam = 0;
    for (let row = 0; row < size; row += 1) {
      inside += step(row * size + 20, row * size + 21);
      seam += step(row * size + size - 1, row * size);
    }
    expect(seam).toBeLessThan(inside * 2);
  });
});
