/**
 * A wall by one marked rectangle, where there is no core: homography, camera and how sure a size is. The numbers are
 * those of `pycore/wall/fit_wall.py` for a photograph whose file tells no focal length.
 */
import { say } from "../speech/say";
import { type Camera, type Corners, inverse, mapped, type Plane, type Point } from "./plane";
import { fitPose, focalFromPlane, poseFromPlane } from "./pose";
import { derivatives, solve } from "./solving";

/** Common practice: a telephone's main lens, about as 26 mm on 36 x 24 mm. */
const USUAL_SHARE = 26 / Math.hypot(36, 24);
/** Lenses from 12 to 400 mm on 36 x 24 mm, in units of the photograph's diagonal. */
const LEAST_FOCAL = 0.28;
const MOST_FOCAL = 9.2;
/** With a focal length less sure than this the view is too frontal to tell it. */
const TOO_FRONTAL = 1.2;
/** Derived: the normal distribution's two-sided 95 percent. */
const WITHIN_95 = 1.959964;

export interface MarkedWall {
  readonly wallToPhoto: Plane;
  readonly camera: Camera;
  readonly focalPx: number;
  /** The view is too frontal: a usual lens is taken. */
  readonly isUsual: boolean;
}

/** The homography of a rectangle's corners; the origin is its lower-left one. */
export function planeFromCorners([width, height]: Point, corners: Corners): Plane {
  // On the unit square, so that the equations are of one size.
  const square: readonly Point[] = [
    [0, 1],
    [1, 1],
    [1, 0],
    [0, 0],
  ];
  const rows = square.flatMap(([x, y], i) => {
    const [u, v] = corners[i] ?? corners[0];
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y],
      [0, 0, 0, x, y, 1, -v * x, -v * y],
    ];
  });
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = solve(rows, corners.flat());
  return [
    [a / width, b / height, c],
    [d / width, e / height, f],
    [g / width, h / height, 1],
  ];
}

/** The wall and the camera of a photograph of so many pixels. */
export function markedWall(size: Point, corners: Corners, photo: Point): MarkedWall {
  const plane = planeFromCorners(size, corners);
  const centre: Point = [photo[0] / 2, photo[1] / 2];
  const diagonal = Math.hypot(...photo);
  const isReal = (focal: number): boolean => focal > LEAST_FOCAL * diagonal && focal < MOST_FOCAL * diagonal;
  const usual = USUAL_SHARE * diagonal;
  const guess = focalFromPlane(plane, centre);
  const [width, height] = size;
  const wall: readonly Point[] = [
    [0, height],
    [width, height],
    [width, 0],
    [0, 0],
  ];
  const begun = poseFromPlane(plane, isReal(guess) ? guess : usual, centre);
  const free = fitPose(wall, corners, begun, centre, true);
  const isUsual = !isReal(free.pose.focalPx) || !(free.logSigma <= TOO_FRONTAL);
  const focalPx = isUsual
    ? fitPose(wall, corners, poseFromPlane(plane, usual, centre), centre, false).pose.focalPx
    : free.pose.focalPx;
  return { wallToPhoto: plane, camera: lifted(plane, focalPx, centre), focalPx, isUsual };
}

/** A camera whose plane z = 0 is exactly the homography, and whose third axis is the pose's. */
function lifted(plane: Plane, focalPx: number, centre: Point): Camera {
  const { rotation, shiftMm } = poseFromPlane(plane, focalPx, centre);
  const [x, y, z] = [rotation[0][2], rotation[1][2], rotation[2][2]];
  const far = shiftMm[2];
  return [
    [plane[0][0], plane[0][1], (focalPx * x + centre[0] * z) / far, plane[0][2]],
    [plane[1][0], plane[1][1], (focalPx * y + centre[1] * z) / far, plane[1][2]],
    [plane[2][0], plane[2][1], z / far, plane[2][2]],
  ];
}

/** How sure width and height of something on the wall are, mm: 95 of 100 times within, when a corner is off by a pixel. */
export function withinMm(reference: Point, corners: Corners, at: Point, size: Point): Point {
  const plane = planeFromCorners(reference, corners);
  const ends: readonly Point[] = [
    [at[0] - size[0] / 2, at[1]],
    [at[0] + size[0] / 2, at[1]],
    [at[0], at[1] - size[1] / 2],
    [at[0], at[1] + size[1] / 2],
  ];
  const drawn = ends.map((end) => mapped(plane, end));
  const sizes = ([a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0]: readonly number[]): number[] => {
    const back = inverse(
      planeFromCorners(reference, [
        [a, b],
        [c, d],
        [e, f],
        [g, h],
      ]),
    );
    const [left = [0, 0], right = [0, 0], lower = [0, 0], upper = [0, 0]] = drawn.map((one) => mapped(back, one));
    return [Math.hypot(right[0] - left[0], right[1] - left[1]), Math.hypot(upper[0] - lower[0], upper[1] - lower[1])];
  };
  const slopes = derivatives(sizes, corners.flat());
  const sigma = (which: 0 | 1): number =>
    WITHIN_95 * Math.sqrt(slopes.reduce((sum, row) => sum + (row[which] ?? 0) ** 2, 0));
  return [sigma(0), sigma(1)];
}

/** What is wrong with marked corners, in a sentence; undefined where they may be a rectangle's. */
export function cornersWrong(corners: Corners): string | undefined {
  const at = (i: number): Point => corners[i % 4] ?? corners[0];
  const sides = corners.map((_, i): Point => [at(i + 1)[0] - at(i)[0], at(i + 1)[1] - at(i)[1]]);
  if (
    corners.some((one, i) => corners.some((other, k) => k < i && Math.hypot(one[0] - other[0], one[1] - other[1]) < 3))
  ) {
    return say("Two corners lie in one place; mark each corner of the paper once.");
  }
  const turns = sides.map((side, i) => {
    const [x, y] = sides[(i + 1) % 4] ?? side;
    return side[0] * y - side[1] * x;
  });
  const lefts = turns.filter((turn) => turn < 0).length;
  if (lefts === 2)
    return say("The edges cross; mark upper left, upper right, lower right and lower left, in this order.");
  const across = corners.map((_, i) => Math.hypot(at(i + 2)[0] - at(i)[0], at(i + 2)[1] - at(i)[1]));
  if (turns.some((turn, i) => Math.abs(turn) < 0.01 * (across[i] ?? 1) ** 2)) {
    return say(
      "Three corners lie in one line, or the paper is seen edge-on; mark them again, or photograph the wall from further in front.",
    );
  }
  if (lefts === 4)
    return say("The corners are in another order; mark upper left, upper right, lower right and lower left.");
  return lefts > 0 ? say("One corner lies inside the others; mark them again.") : undefined;
}
