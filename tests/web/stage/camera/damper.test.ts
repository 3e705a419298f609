import { describe, expect, it } from "vitest";
import { atRest, damp } from "../../../../web/src/stage/camera/damper";

describe("damp", () => {
  it("follows the critically damped spring", () => {
    // derived: from rest at 1 towards 0, x = (1 + w t) exp(-w t); with w t = 2 that is 3 exp(-2) = 0.406006.
    const after = damp({ value: 1, speed: 0 }, 0, 0.5, 1);
    expect(after.value).toBeCloseTo(0.406006, 6);
    // derived: x' = -w^2 t exp(-w t) = -4 exp(-2) = -0.541341.
    expect(after.speed).toBeCloseTo(-0.541341, 6);
  });

  it("takes the same path whatever the frame rate", () => {
    const once = damp({ value: 3, speed: -2 }, 1, 0.2, 0.3);
    let often = { value: 3, speed: -2 };
    for (let i = 0; i < 30; i += 1) often = damp(often, 1, 0.2, 0.01);
    // derived: the solution is exact, so only rounding may differ.
    expect(often.value).toBeCloseTo(once.value, 12);
    expect(often.speed).toBeCloseTo(once.speed, 12);
  });

  it("never passes the goal when it starts at rest", () => {
    for (let t = 0; t < 5; t += 0.05) expect(damp({ value: 1, speed: 0 }, 0, 0.1, t).value).toBeGreaterThanOrEqual(0);
  });

  it("stays where it is with no time gone", () => {
    expect(damp({ value: 5, speed: 7 }, 1, 0.1, 0)).toEqual({
      value: 5,
      speed: 7,
    });
  });
});

describe("atRest", () => {
  it("needs both nearness and slowness", () => {
    expect(atRest({ value: 1, speed: 0 }, 1, 1e-3)).toBe(true);
    expect(atRest({ value: 1, speed: 1 }, 1, 1e-3)).toBe(false);
    expect(atRest({ value: 2, speed: 0 }, 1, 1e-3)).toBe(false);
  });
});
