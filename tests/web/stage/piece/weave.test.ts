import { describe, expect, it } from "vitest";
import { FULL_SLOPE, MEAN_HEIGHT, weaveHeights, weaveTile, WEAVE_TILE_MM } from "../../../../web/src/stage/piece/weave";

const PX = 128;
const heights = weaveHeights(PX);
const tile = weaveTile(PX);
const channel = (k: number): number[] => Array.from({ length: PX * PX }, (_, i) => tile[i * 4 + k] ?? 0);
const mean = (list: ArrayLike<number>): number => Array.from(list).reduce((sum, v) => sum + v, 0) / list.length;

describe("weaveHeights", () => {
  const thread = PX / 16;
  const middle = (i: number, j: number): number =>
    heights[Math.floor((j + 0.5) * thread) * PX + Math.floor((i + 0.5) * thread)] ?? 0;

  it("repeats after two threads each way, as a plain weave does", () => {
    // derived: half-way between two crossings along a thread it dives, so a crossing stands above its cell's corners.
    let corners = 0;
    let crossings = 0;
    for (let j = 0; j < 16; j += 1) {
      for (let i = 0; i < 16; i += 1) {
        crossings += middle(i, j);
        corners += heights[j * thread * PX + i * thread] ?? 0;
      }
    }
    expect(crossings / 256).toBeGreaterThan(corners / 256 + 0.3);
  });

  it("runs on past its own ends", () => {
    // derived: the step from the last column to the first is like the steps between neighbours inside.
    const step = (a: number, b: number): number =>
      mean(Array.from({ length: PX }, (_, j) => Math.abs((heights[j * PX + a] ?? 0) - (heights[j * PX + b] ?? 0))));
    const inside = Math.max(...Array.from({ length: PX - 1 }, (_, i) => step(i, i + 1)));
    expect(step(PX - 1, 0)).toBeLessThanOrEqual(inside);
    expect(inside).toBeGreaterThan(0);
  });

  it("is the same on every visit", () => {
    expect(weaveHeights(PX)).toEqual(heights);
  });
});

describe("weaveTile", () => {
  it("is level on average, so that far off it leaves nothing", () => {
    // derived: slopes round a closed tile sum to 0; rounding to a byte leaves less than half a level.
    expect(Math.abs(mean(channel(0)) - 128)).toBeLessThan(0.5);
    expect(Math.abs(mean(channel(1)) - 128)).toBeLessThan(0.5);
  });

  it("keeps its slopes inside the scale, and uses a good part of it", () => {
    for (const k of [0, 1]) {
      const list = channel(k);
      expect(list.filter((v) => v === 1 || v === 255).length).toBeLessThan(PX * PX * 0.01);
      expect(Math.max(...list)).toBeGreaterThan(170);
    }
    expect(FULL_SLOPE).toBeGreaterThan(0);
    expect(WEAVE_TILE_MM).toBeCloseTo(12.8, 9);
  });

  it("has the height's mean that the shader takes away", () => {
    // regression: measured on the tile of 256 pixels; this coarser one lies a little off.
    expect(Math.abs(mean(channel(2)) / 255 - MEAN_HEIGHT)).toBeLessThan(0.01);
  });

  it("is smoother on the crowns than in the hollows", () => {
    const [height, rough] = [channel(2), channel(3)];
    const high = height.indexOf(Math.max(...height));
    const low = height.indexOf(Math.min(...height));
    expect(rough[high] ?? 0).toBeLessThan(rough[low] ?? 0);
  });
});
