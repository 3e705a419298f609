import { describe, expect, it } from "vitest";
import { highestRem, letterHeight } from "../../../../../web/src/page/sections/plan/drawn_size";

describe("a sheet", () => {
  it("fills the column's width, with 26 letters to it", () => {
    expect(highestRem(483, 329)).toBe(32);
    expect(letterHeight(483, 329)).toBeCloseTo(483 / 26, 9);
  });

  it("that is a long piece of a roll is drawn 10 rem wide, with letters as large", () => {
    // Derived: 329 mm are 10 rem, so 0.86 rem are 28.3 mm; by the width alone they would be 12.7 mm, 6 px high.
    expect(highestRem(329, 2204)).toBeCloseTo(10 * (2204 / 329), 9);
    expect(letterHeight(329, 2204)).toBeCloseTo(0.086 * 329, 9);
  });

  it("goes on for 120 rem at most", () => {
    expect(highestRem(329, 20000)).toBe(120);
  });
});
