import { describe, expect, it } from "vitest";
import { linearColour, roomOf, ROOMS, toLinear, WALLS } from "../../../../web/src/stage/room/theme";

describe("toLinear", () => {
  it("follows the curve of sRGB", () => {
    // published: IEC 61966-2-1, the two branches; derived: 0.5 -> ((0.5 + 0.055) / 1.055)^2.4 = 0.214041.
    expect([toLinear(0), toLinear(1)]).toEqual([0, 1]);
    expect(toLinear(0.02)).toBeCloseTo(0.02 / 12.92, 12);
    expect(toLinear(0.5)).toBeCloseTo(0.214041, 6);
  });
});

describe("linearColour", () => {
  it("reads the three channels in order", () => {
    const [r, g, b] = linearColour("#ff8000");
    expect(r).toBe(1);
    // derived: 128 / 255 -> 0.215861.
    expect(g).toBeCloseTo(0.215861, 6);
    expect(b).toBe(0);
  });
});

describe("ROOMS", () => {
  it("paints the dusk wall darker than the morning wall", () => {
    const lightness = (code: string): number => linearColour(code).reduce((sum, v) => sum + v, 0);
    expect(lightness(ROOMS.dark.wall)).toBeLessThan(lightness(ROOMS.light.wall) / 4);
  });
});

describe("roomOf", () => {
  it("paints every wall in both themes, each unlike the others, and keeps the theme's own for plaster", () => {
    for (const theme of ["light", "dark"] as const) {
      const walls = Object.values(WALLS[theme]).map(({ wall }) => wall);
      expect(new Set(walls).size).toBe(5);
      expect(roomOf(theme, "plaster")).toEqual(ROOMS[theme]);
      expect(roomOf(theme, "slate").skirting).toBe(ROOMS[theme].skirting);
    }
  });
});
