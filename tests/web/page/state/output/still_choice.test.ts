import { describe, expect, it } from "vitest";
import { sizeWrong, stillOptions } from "../../../../../web/src/page/state/output/still_choice";

describe("sizeWrong", () => {
  it("takes what can be drawn", () => {
    expect([sizeWrong(16, 16), sizeWrong(12000, 8333)]).toEqual([undefined, undefined]);
  });

  it.each([
    [15, 100, "a whole number from 16 to 12000"],
    [12001, 100, "a whole number from 16 to 12000"],
    [800.5, 100, "a whole number from 16 to 12000"],
    [Number.NaN, 100, "a whole number from 16 to 12000"],
    // derived: 100 million pixels in all.
    [12000, 10000, "at most 10000 beside 10000"],
  ])("refuses %d beside %d", (px, other, expected) => {
    expect(sizeWrong(px, other)).toBe(expected);
  });
});

describe("stillOptions", () => {
  it("shows a named view folded, whatever the slider says, and the unfolded sheet from the front", () => {
    expect(stillOptions("corner", undefined)).toEqual({
      view: "corner",
      at: 1,
    });
    expect(stillOptions("unfolded", "inch")).toEqual({
      view: "front",
      at: 0,
      scale: "inch",
    });
  });

  it("leaves the wall as it is seen", () => {
    expect(stillOptions("now", "mm")).toEqual({ scale: "mm" });
  });
});
