// A pixel for each 10 mm of the canvas of 300.9 x 387.9 mm, near enough; front edges at 45 and 255.9 mm across, 45 and
// 342.9 mm down; back edges at 25 and 275.9 mm across, 25 and 362.9 mm down.
import { expect, it } from "vitest";
import { averageColour, mostOn } from "../../../../../web/src/page/state/colour/pixels";
import { LAYOUT } from "../../jobs";

const WIDTH = 30;
const HEIGHT = 39;

const filled = (boxes: readonly [number, number, number, number][]) => {
  const labels = new Uint8Array(WIDTH * HEIGHT);
  for (const [left, top, right, bottom] of boxes) {
    for (let y = top; y < bottom; y += 1) labels.fill(3, y * WIDTH + left, y * WIDTH + right);
  }
  return { labels, widthPx: WIDTH, heightPx: HEIGHT };
};

// Derived: columns 5 to 24 and rows 5 to 33 are of the face; columns 3 and 4 of the left side; and so round.
it.each([
  ["face", [5, 5, 25, 34]],
  ["left", [3, 5, 4, 34]],
  ["right", [26, 5, 27, 34]],
  ["top", [5, 3, 25, 4]],
  ["bottom", [5, 35, 25, 36]],
  ["back", [5, 0, 25, 2]],
  ["corners", [3, 3, 4, 4]],
] as const)("a group on the %s is there", (place, [left, top, right, bottom]) => {
  expect(mostOn(filled([[left, top, right, bottom]]), 3, LAYOUT.flat)).toBe(place);
});

it("a group on two parts is where most of it is", () => {
  // 4 pixels on the face, 10 on the left side.
  expect(
    mostOn(
      filled([
        [10, 10, 12, 12],
        [3, 10, 4, 20],
      ]),
      3,
      LAYOUT.flat,
    ),
  ).toBe("left");
});

it("other groups do not count", () => {
  const labels = filled([[3, 5, 4, 34]]);
  labels.labels[10 * WIDTH + 10] = 1;
  expect(mostOn(labels, 1, LAYOUT.flat)).toBe("face");
});

/** An image 10 x 4, left half red, right half of another colour. */
function halves(): {
  data: Uint8ClampedArray<ArrayBuffer>;
  width: number;
  height: number;
} {
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
