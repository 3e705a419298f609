import { describe, expect, it } from "vitest";
import { encodedColour, SOLID_COLOURS } from "../../../web/src/solid/theme";
import { linearColour } from "../../../web/src/stage/room/theme";

const WEIGHTS = [0.2126, 0.7152, 0.0722];

/** Contrast of two colours: WCAG 2.2, relative luminance. */
function contrast(one: string, other: string): number {
  const luminance = (code: string): number =>
    linearColour(code).reduce((sum, value, k) => sum + value * (WEIGHTS[k] ?? 0), 0);
  const [low = 0, high = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

describe("surroundings", () => {
  it.each(["light", "dark"] as const)("can be read: %s", (theme) => {
    const { ground, ink, quietInk } = SOLID_COLOURS[theme];
    // published: WCAG 2.2, 1.4.3: 4.5 to 1 for text.
    expect(contrast(ground, ink)).toBeGreaterThan(4.5);
    expect(contrast(ground, quietInk)).toBeGreaterThan(4.5);
  });
});

describe("encodedColour", () => {
  it("reads a code", () => {
    expect(encodedColour("#ff0033")).toEqual([1, 0, 0.2]);
  });
});
