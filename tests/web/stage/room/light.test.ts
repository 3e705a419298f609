import { describe, expect, it } from "vitest";
import { roomLight, shadowRays, sunflower } from "../../../../web/src/stage/room/light";
import { lightTint } from "../../../../web/src/stage/room/light_colour";

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

describe("roomLight from elsewhere", () => {
  const towards = [
    ["upper-left", -1, 1],
    ["left", -1, 1],
    ["above", 0, 1],
    ["right", 1, 1],
    ["upper-right", 1, 1],
  ] as const;

  it("comes from where it says, and gives the face exactly one in neutral light", () => {
    for (const [from, x, y] of towards) {
      const there = roomLight({ light_from: from, light_kelvin: 5000 });
      expect([Math.sign(there.key[0]), Math.sign(there.key[1])]).toEqual([x, y]);
      there.keyColour.forEach((key, i) => expect(key * there.key[2] + (there.skyColour[i] ?? 0)).toBeCloseTo(1, 12));
    }
  });

  it("gives the face the light's own tint, never more than one", () => {
    const { key, keyColour, skyColour } = roomLight({
      light_from: "left",
      light_kelvin: 2700,
    });
    const face = keyColour.map((value, i) => value * key[2] + (skyColour[i] ?? 0));
    lightTint(2700).forEach((value, i) => expect(face[i]).toBeCloseTo(value, 12));
    expect(Math.max(...face)).toBeCloseTo(1, 12);
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
