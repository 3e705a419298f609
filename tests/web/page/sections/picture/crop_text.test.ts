import { expect, it } from "vitest";
import { cropWords } from "../../../../../web/src/page/sections/picture/crop_text";

it("says what is left out at each edge", () => {
  // Derived: 1 - 0.25 - 0.7 at the right, and 1 - 0.125 - 0.5 below.
  expect(cropWords({ x: 0.25, y: 0.125, width: 0.7, height: 0.5 })).toBe(
    "The crop leaves out 25 % at the left, 5 % at the right, 13 % at the top, 38 % at the bottom.",
  );
});
