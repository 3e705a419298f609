import { expect, it } from "vitest";
import walls from "../../data/walls.json";
import { cornersWrong, markedWall } from "../../../web/src/photo/marked_wall";
import type { Corners, Point } from "../../../web/src/photo/plane";

const point = ([x = 0, y = 0]: readonly number[]): Point => [x, y];
function corners([a = [], b = [], c = [], d = []]: readonly (readonly number[])[]): Corners {
  return [point(a), point(b), point(c), point(d)];
}

/** How far two matrices are apart, as a share of each entry's size in the photograph. */
function apart(one: readonly (readonly number[])[], other: readonly (readonly number[])[]): number {
  return Math.max(
    ...one.flatMap((row, i) => {
      const size = Math.max(...row.map(Math.abs));
      return row.map((value, k) => Math.abs(value - (other[i]?.[k] ?? Number.NaN)) / size);
    }),
  );
}

// The file's numbers are the core's own (python -m tests.pycore.wall.write_page_walls); the tolerances are those of
// the task: a millionth where four corners give an exact answer.
it.each(walls)("measures a wall as the core does ($focal_px px)", (wall) => {
  const [marks, photo, reference] = [corners(wall.corners), point(wall.photo_px), point(wall.reference_mm)];
  const found = markedWall(reference, marks, photo, wall.filed_focal_px);
  expect(apart(wall.wall_to_photo, found.wallToPhoto)).toBeLessThan(1e-6);
  expect(found.focalFrom).toBe(wall.focal_from);
  expect(found.isRectangle).toBe(true);
  expect(Math.abs(found.focalPx / wall.focal_px - 1)).toBeLessThan(1e-6);
  expect(apart(wall.camera, found.camera)).toBeLessThan(1e-6);
  const within = found.withinMm(point(wall.at_mm), point(wall.size_mm));
  expect(Math.abs(within[0] / (wall.within_mm[0] ?? 0) - 1)).toBeLessThan(1e-4);
  expect(Math.abs(within[1] / (wall.within_mm[1] ?? 0) - 1)).toBeLessThan(1e-4);
});

it.each([
  ["cross", [100, 100], [300, 300], [300, 100], [100, 300]],
  ["in one line", [100, 100], [200, 100], [300, 100], [100, 300]],
  ["in one place", [100, 100], [100, 100], [300, 300], [100, 300]],
  ["another order", [100, 100], [100, 300], [300, 300], [300, 100]],
  ["edge-on", [100, 100], [104, 100], [104, 900], [100, 900]],
  ["inside the others", [100, 100], [300, 100], [160, 140], [100, 300]],
] as const)("says in a sentence that corners %s", (said, a, b, c, d) => {
  expect(cornersWrong([a, b, c, d])).toContain(said);
});

it("takes corners of a rectangle at a slant", () => {
  expect(
    cornersWrong([
      [100, 100],
      [280, 130],
      [280, 370],
      [100, 420],
    ]),
  ).toBeUndefined();
});
