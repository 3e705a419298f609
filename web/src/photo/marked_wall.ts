/**
 * A wall by one marked rectangle, where there is no core: homography, camera and how sure a size is. The numbers are
 * those of `pycore/wall/fit_wall.py`.
 */
import { say } from "../speech/say";
import { type Camera, type Corners, inverse, mapped, type Plane, planeOf, type Point } from "./plane";
import { cameraOf, fitPose, focalFromPlane, type FoundPose, poseFromPlane } from "./pose";
import { derivatives, type Matrix, solve } from "./solving";

/** Common practice: a telephone's main lens, about as 26 mm on 36 x 24 mm. */
const USUAL_SHARE = 26 / Math.hypot(36, 24);
/** Lenses from 12 to 400 mm on 36 x 24 mm, in units of the photograph's diagonal. */
const LEAST_FOCAL = 0.28;
const MOST_FOCAL = 9.2;
/** With a focal length less sure than this the view is too frontal to tell it. */
const TOO_FRONTAL = 1.2;
/** With a focal length surer than this the corners must be those of a camera's rectangle. */
const SURE = 0.3;
/** How well a file's focal length is known, as a share, and by how many deviations the corners may move it. */
const FILED_SIGMA = 0.03;
const MOST_MOVED = 3;
/** Corners may miss a rectangle by so many pixels, or by this share of the reference's mean edge. */
const MISS_PX = 4;
const MISS_SHARE = 0.02;
/** Derived: the normal distribution's two-sided 95 percent. */
const WITHIN_95 = 1.959964;

export interface MarkedWall {
  readonly wallToPhoto: Plane;
  readonly camera: Camera;
  readonly focalPx: number;
  readonly focalFrom: FocalFrom;
  /** The corners may be those of a rectangle of this size. */
  readonly isRectangle: boolean;
  /** How sure width and height of something at a place of the wall are, mm. */
  readonly withinMm: (at: Point, size: Point) => Point;
}

/** The file's own, the one by which the corners are a rectangle, or a usual lens where the view is too frontal. */
export type FocalFrom = "exif" | "perspective" | "usual";

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

/** The wall and the camera of a photograph of so many pixels, with the focal length that its file tells. */
export function markedWall(size: Point, corners: Corners, photo: Point, filedPx?: number): MarkedWall {
  const plane = planeFromCorners(size, corners);
  const centre: Point = [photo[0] / 2, photo[1] / 2];
  const [width, height] = size;
  const wall: readonly Point[] = [
    [0, height],
    [width, height],
    [width, 0],
    [0, 0],
  ];
  const ofCamera = (found: FoundPose, focalFrom: FocalFrom): MarkedWall => {
    const camera = cameraOf(found.pose, centre);
    const unsure = { planeAt: found.planeAt, normal: found.normal };
    return wallOf({ camera, focalPx: found.pose.focalPx, focalFrom, missPx: found.missPx, corners, unsure });
  };
  const mostMiss = Math.max(MISS_PX, MISS_SHARE * meanEdge(corners));
  if (filedPx !== undefined) {
    const found = fitPose(wall, corners, poseFromPlane(plane, filedPx, centre), centre, FILED_SIGMA);
    const moved = Math.abs(Math.log(found.pose.focalPx / filedPx));
    if (found.missPx <= mostMiss && moved <= MOST_MOVED * FILED_SIGMA) return ofCamera(found, "exif");
  }
  const diagonal = Math.hypot(...photo);
  const isReal = (focal: number): boolean => focal > LEAST_FOCAL * diagonal && focal < MOST_FOCAL * diagonal;
  const usual = USUAL_SHARE * diagonal;
  const guess = focalFromPlane(plane, centre);
  const begun = poseFromPlane(plane, isReal(guess) ? guess : usual, centre);
  const free = fitPose(wall, corners, begun, centre);
  const isTold = isReal(free.pose.focalPx) && free.logSigma <= TOO_FRONTAL;
  if (isTold && free.logSigma <= SURE) return ofCamera(free, "perspective");
  const found = isTold ? free : fitPose(wall, corners, poseFromPlane(plane, usual, centre), centre, 0);
  const marks = corners.flat();
  const unsure = {
    planeAt: (moved: readonly number[]) =>
      planeFromCorners(size, cornersOf(marks.map((value, i) => value + (moved[i] ?? 0)))),
    normal: marks.map((_, i) => marks.map((_one, k) => (i === k ? 1 : 0))),
  };
  const { focalPx } = found.pose;
  const camera = lifted(plane, focalPx, centre);
  const focalFrom = isTold ? "perspective" : "usual";
  return wallOf({ camera, focalPx, focalFrom, missPx: found.missPx, corners, unsure });
}

/** How a homography changes with unknowns that are sure within their normal matrix. */
interface Unsure {
  readonly planeAt: (moved: readonly number[]) => Plane;
  readonly normal: Matrix;
}

type Found = Pick<MarkedWall, "camera" | "focalPx" | "focalFrom"> & {
  readonly missPx: number;
  readonly corners: Corners;
  readonly unsure: Unsure;
};

function wallOf({ camera, focalPx, focalFrom, missPx, corners, unsure }: Found): MarkedWall {
  const wallToPhoto = planeOf(camera);
  return {
    wallToPhoto,
    camera,
    focalPx,
    focalFrom,
    isRectangle: missPx <= Math.max(MISS_PX, MISS_SHARE * meanEdge(corners)),
    withinMm: (at, size) => withinMm(wallToPhoto, unsure, at, size),
  };
}

function cornersOf([a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0]: readonly number[]): Corners {
  return [
    [a, b],
    [c, d],
    [e, f],
    [g, h],
  ];
}

function meanEdge(corners: Corners): number {
  const [a, b, c, d] = corners;
  const apart = (one: Point, other: Point): number => Math.hypot(one[0] - other[0], one[1] - other[1]);
  return (apart(a, b) + apart(b, c) + apart(c, d) + apart(d, a)) / 4;
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
function withinMm(plane: Plane, { planeAt, normal }: Unsure, at: Point, size: Point): Point {
  const ends: readonly Point[] = [
    [at[0] - size[0] / 2, at[1]],
    [at[0] + size[0] / 2, at[1]],
    [at[0], at[1] - size[1] / 2],
    [at[0], at[1] + size[1] / 2],
  ];
  const drawn = ends.map((end) => mapped(plane, end));
  const sizes = (moved: readonly number[]): number[] => {
    const back = inverse(planeAt(moved));
    const [left = [0, 0], right = [0, 0], lower = [0, 0], upper = [0, 0]] = drawn.map((one) => mapped(back, one));
    return [Math.hypot(right[0] - left[0], right[1] - left[1]), Math.hypot(upper[0] - lower[0], upper[1] - lower[1])];
  };
  const slopes = derivatives(
    sizes,
    normal.map(() => 0),
  );
  const sigma = (which: 0 | 1): number => {
    const slope = slopes.map((row) => row[which] ?? 0);
    const spread = solve(normal, slope);
    return WITHIN_95 * Math.sqrt(slope.reduce((sum, value, i) => sum + value * (spread[i] ?? 0), 0));
  };
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

/** Corners to begin with by hand: an upright sheet in the middle of the photograph. */
export function roughCorners([width, height]: Point): Corners {
  const half = Math.min(width, height) / 8;
  const [x, y] = [width / 2, height / 2];
  return [
    [x - half, y - 1.4 * half],
    [x + half, y - 1.4 * half],
    [x + half, y + 1.4 * half],
    [x - half, y + 1.4 * half],
  ];
}
