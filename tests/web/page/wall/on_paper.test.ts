import { describe, expect, it } from "vitest";
import { paperScale } from "../../../../web/src/page/wall/on_paper";

describe("the stage on paper", () => {
  it("is never larger than on the screen", () => expect(paperScale({ width: 390, height: 250 })).toBe(1));

  it("is scaled by the side that is too long", () => {
    // Derived: 640 px of 1280, and 480 px of 1920.
    expect(paperScale({ width: 1280, height: 700 })).toBe(0.5);
    expect(paperScale({ width: 1280, height: 1920 })).toBe(0.25);
  });
});
