import { expect, it } from "vitest";
import { averageColour } from "../../../../web/src/page/state/colour_at";

/** An image 10 x 4, left half red, right half of another colour. */
function halves(): { data: Uint8ClampedArray<ArrayBuffer>; width: number; height: number } {
  const data = new Uint8ClampedArray(10 * 4 * 4);
  for (let pixel = 0; pixel < 40; pixel++) data.set(pixel % 10 < 5 ? [255, 0, 0, 255] : [0, 128, 64, 255], pixel * 4);
  return { data, width: 10, height: 4 };
}

it("gives the colour about a place as #rrggbb", () => {
  expect(averageColour(halves(), { x: 0, y: 0 })).toBe("#ff0000");
  expect(averageColour(halves(), { x: 1, y: 1 })).toBe("#008040");
});

it("averages over the neighbourhood", () => {
  // Derived: at column 5 the columns 3 to 7 count, two red and three not: 2/5 of 255, 3/5 of 128 and of 64.
  expect(averageColour(halves(), { x: 0.5, y: 0.5 })).toBe("#664d26");
});
