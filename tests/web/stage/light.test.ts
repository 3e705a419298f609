import { describe, expect, it } from "vitest";
import { roomLight, shadowRays, sunflower } from "../../../web/src/stage/light";

const light = roomLight();

describe("roomLight", () => {
  it("gives the face exactly one in every channel", () => {
    // derived: the face's normal is +z; key x cos + sky = 1, so that the texture's colours are the screen's.
    light.keyColour.forEach((key, i) => expect(key * light.key[2] + (light.skyColour[i] ?? 0)).toBeCloseTo(1, 12));
  });

  it("comes from the upper left, in front of the wall, as a unit vector", () => {
    const [x, y, z] = light.key;
    expect(x).toBeLessThan(0);
    expect(y).toBeGreaterThan(0);
    expect(z).toBeGreaterThan(0);
    expect(Math.hypot(x, y, z)).toBeCloseTo(1, 12);
  });
});

describe("sunflower", () => {
  it("covers the disc evenly", () => {
    const points = sunflower(200);
    // derived: an even disc has half of its points within 1 / sqrt(2) of the middle, and its middle at 0.
    const inner = points.filter(([x, y]) => Math.hypot(x, y) < Math.SQRT1_2).length;
    expect(inner).toBe(100);
    expect(Math.abs(points.reduce((sum, [x]) => sum + x, 0) / 200)).toBeLessThan(0.01);
    expect(points.every(([x, y]) => Math.hypot(x, y) <= 1)).toBe(true);
  });
});

describe("shadowRays", () => {
  const rays = shadowRays(light, 85, 51);

  it("carries all of key and sky in whole 255ths", () => {
    expect(rays.reduce((sum, ray) => sum + ray.key, 0)).toBe(255);
    expect(rays.reduce((sum, ray) => sum + ray.sky, 0)).toBe(255);
    expect(rays.every((ray) => Number.isInteger(ray.key) && Number.isInteger(ray.sky))).toBe(true);
  });

  it("throws the key's shadow down to the right", () => {
    // derived: a point h off the wall lands at -slope x h; the mean slope is the key's own, x / z and y / z.
    const key = rays.filter((ray) => ray.key > 0);
    const meanX = key.reduce((sum, ray) => sum + ray.slopeX, 0) / key.length;
    const meanY = key.reduce((sum, ray) => sum + ray.slopeY, 0) / key.length;
    expect(Math.abs(meanX - light.key[0] / light.key[2])).toBeLessThan(0.01);
    expect(Math.abs(meanY - light.key[1] / light.key[2])).toBeLessThan(0.01);
    expect(meanX).toBeLessThan(0);
    expect(meanY).toBeGreaterThan(0);
  });

  it("refuses a number of rays that eight bits cannot share out", () => {
    expect(() => shadowRays(light, 64, 51)).toThrow("rays: expected a divisor of 255, got 64");
  });
});
