import { describe, expect, it } from "vitest";
import { sharpEdges } from "../../../web/src/solid/edges";

/** A unit cube, two triangles a side. */
const CORNERS = new Float32Array([0, 1].flatMap((z) => [0, 1].flatMap((y) => [0, 1].flatMap((x) => [x, y, z]))));
const CUBE = new Uint32Array([
  ...[0, 2, 1, 1, 2, 3],
  ...[4, 5, 6, 5, 7, 6],
  ...[0, 1, 4, 1, 5, 4],
  ...[2, 6, 3, 3, 6, 7],
  ...[0, 4, 2, 2, 4, 6],
  ...[1, 3, 5, 3, 7, 5],
]);

describe("sharpEdges", () => {
  it("finds the edges of a cube, not the diagonals of its sides", () => {
    const found = sharpEdges(CORNERS, CUBE, 0.5);
    const pairs = Array.from({ length: found.length / 2 }, (_, i) => [found[i * 2] ?? 0, found[i * 2 + 1] ?? 0]);
    expect(pairs.length).toBe(12);
    for (const [from = 0, to = 0] of pairs) {
      // Corners of one edge differ in one coordinate: their numbers in one bit.
      expect([1, 2, 4]).toContain(from ^ to);
    }
  });

  it("finds none where nothing is sharp enough", () => {
    // derived: the sides of a cube meet at 90 degrees, 1.571 radians.
    expect(sharpEdges(CORNERS, CUBE, 1.58).length).toBe(0);
  });
});
