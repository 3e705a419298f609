import { describe, expect, it } from "vitest";
import { blackBody, lightTint, NEUTRAL_KELVIN } from "../../../../web/src/stage/room/light_colour";

describe("blackBody", () => {
  it("agrees with an independent engine on the same approximation", () => {
    // published: Kang et al. (2002), as colour-science 0.4 evaluates it (CCT_to_xy_Kang2002), 8 digits.
    for (const [kelvin, x, y] of [
      [2700, 0.45931395, 0.41066025],
      [4000, 0.38052828, 0.37673353],
      [5000, 0.34499168, 0.35158667],
      [6500, 0.31349411, 0.32366254],
    ] as const) {
      const [gotX, gotY] = blackBody(kelvin);
      expect(Math.abs(gotX - x)).toBeLessThan(5e-9);
      expect(Math.abs(gotY - y)).toBeLessThan(5e-9);
    }
  });

  it("has no step where its branches meet", () => {
    // derived: the two cubics meet at 4000 K within 1e-4, far below a just visible difference of chromaticity.
    const [below, above] = [blackBody(3999.99), blackBody(4000.01)];
    expect(Math.abs(below[0] - above[0])).toBeLessThan(1e-4);
    expect(Math.abs(below[1] - above[1])).toBeLessThan(3e-4);
  });
});

describe("lightTint", () => {
  it("is neutral at the proof's own light", () => {
    expect(lightTint(NEUTRAL_KELVIN)).toEqual([1, 1, 1]);
  });

  it("is warm below and cool above, and never brighter than the neutral light", () => {
    for (const kelvin of [2700, 3500, 4300, 5700, 6500]) {
      const [r, g, b] = lightTint(kelvin);
      expect(Math.max(r, g, b)).toBe(1);
      expect(Math.sign(r - b)).toBe(Math.sign(NEUTRAL_KELVIN - kelvin));
      expect((r - g) * (g - b)).toBeGreaterThan(0);
    }
  });
});
