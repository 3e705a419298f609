/**
 * The camera before a wall, where there is no core: focal length, rotation and place, as `pycore/wall/pose.py` finds
 * them. Pixels are square, the principal point is the photograph's middle, lens distortion is ignored.
 */
import { type Camera, inverse, type Plane, planeOf, type Point, product, type Triple } from "./plane";
import { fit, type Matrix, solve } from "./solving";

export interface Pose {
  readonly focalPx: number;
  /** From the wall's axes to the camera's. */
  readonly rotation: Plane;
  readonly shiftMm: Triple;
}

const column = (of: Plane, at: 0 | 1 | 2): Triple => [of[0][at], of[1][at], of[2][at]];
const dot = (one: Triple, other: Triple): number => one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const times = (of: Plane, vector: Triple): Triple => [dot(of[0], vector), dot(of[1], vector), dot(of[2], vector)];
const scaled = (vector: Triple, by: number): Triple => [vector[0] * by, vector[1] * by, vector[2] * by];
const columns = (a: Triple, b: Triple, c: Triple): Plane => [
  [a[0], b[0], c[0]],
  [a[1], b[1], c[1]],
  [a[2], b[2], c[2]],
];

/** The homography as a camera of focal length 1 at the origin of the pixels would see it. */
function own(plane: Plane, focalPx: number, [x, y]: Point): Plane {
  const row = (of: Triple, centre: number): Triple => [
    (of[0] - centre * plane[2][0]) / focalPx,
    (of[1] - centre * plane[2][1]) / focalPx,
    (of[2] - centre * plane[2][2]) / focalPx,
  ];
  return [row(plane[0], x), row(plane[1], y), plane[2]];
}

/** The focal length by which a plane's axes are at right angles and equally long; not a number in a frontal view. */
export function focalFromPlane(plane: Plane, centre: Point): number {
  const bare = own(plane, 1, centre);
  const [a, b] = [column(bare, 0), column(bare, 1)];
  const across: Point = [2 * (a[0] * b[0] + a[1] * b[1]), a[0] ** 2 + a[1] ** 2 - b[0] ** 2 - b[1] ** 2];
  const along: Point = [2 * a[2] * b[2], a[2] ** 2 - b[2] ** 2];
  const square = -(across[0] * along[0] + across[1] * along[1]) / (across[0] ** 2 + across[1] ** 2);
  return square > 0 ? 1 / Math.sqrt(square) : Number.NaN;
}

/** The pose nearest to a homography. */
export function poseFromPlane(plane: Plane, focalPx: number, centre: Point): Pose {
  const bare = own(plane, focalPx, centre);
  const [first, second] = [column(bare, 0), column(bare, 1)];
  const scale = Math.sqrt(Math.hypot(...first) * Math.hypot(...second)) * (bare[2][2] > 0 ? 1 : -1);
  const [a, b] = [scaled(first, 1 / scale), scaled(second, 1 / scale)];
  return {
    focalPx,
    rotation: nearestRotation(columns(a, b, cross(a, b))),
    shiftMm: scaled(column(bare, 2), 1 / scale),
  };
}

/** The rotation nearest to a matrix: the mean of it and its inverse, transposed, again and again. */
function nearestRotation(matrix: Plane): Plane {
  let now = matrix;
  for (let count = 0; count < 60; count += 1) {
    const back = inverse(now);
    const mean = (i: 0 | 1 | 2): Triple => {
      const turned = column(back, i);
      return [(now[i][0] + turned[0]) / 2, (now[i][1] + turned[1]) / 2, (now[i][2] + turned[2]) / 2];
    };
    now = [mean(0), mean(1), mean(2)];
  }
  return now;
}

/** The rotation about a vector by its length: Rodrigues' formula. */
function rotationOf(vector: Triple): Plane {
  const angle = Math.hypot(...vector);
  const [x, y, z] = angle > 0 ? scaled(vector, 1 / angle) : vector;
  const [s, c] = [Math.sin(angle), 1 - Math.cos(angle)];
  return [
    [1 - c * (y * y + z * z), c * x * y - s * z, c * x * z + s * y],
    [c * x * y + s * z, 1 - c * (x * x + z * z), c * y * z - s * x],
    [c * x * z - s * y, c * y * z + s * x, 1 - c * (x * x + y * y)],
  ];
}

function poseAt(start: Pose, [a = 0, b = 0, c = 0, x = 0, y = 0, z = 0, f = 0]: readonly number[]): Pose {
  const far = Math.hypot(...start.shiftMm);
  return {
    focalPx: start.focalPx * Math.exp(Math.min(20, Math.max(-20, f))),
    rotation: product(rotationOf([a, b, c]), start.rotation),
    shiftMm: [start.shiftMm[0] + far * x, start.shiftMm[1] + far * y, start.shiftMm[2] + far * z],
  };
}

/** The pose that fits best, and how sure it is. */
export interface FoundPose {
  readonly pose: Pose;
  /** The deviation of the focal length's logarithm; infinite where it is given. */
  readonly logSigma: number;
  /** Root mean square distance of the corners. */
  readonly missPx: number;
  /** The homography where the unknowns are moved from the fit's. */
  readonly planeAt: (moved: readonly number[]) => Plane;
  /** The inverse of the unknowns' covariance for a pixel of corner error. */
  readonly normal: Matrix;
}

/**
 * Fit a pose to points of the wall; the tilt to the other side is tried too. `focalSigma` is how well the start's focal
 * length is known, as a share: 0 exactly, and absent not at all.
 */
export function fitPose(
  wall: readonly Point[],
  photo: readonly Point[],
  start: Pose,
  centre: Point,
  focalSigma?: number,
): FoundPose {
  const middle: Triple = [mean(wall.map(([x]) => x)), mean(wall.map(([, y]) => y)), 0];
  const found = [start, tiltedBack(start, middle)].map((from) => {
    const off = (unknowns: readonly number[]): number[] => {
      const { focalPx, rotation, shiftMm } = poseAt(from, unknowns);
      const corners = wall.flatMap(([x, y], i) => {
        const turned = times(rotation, [x, y, 0]);
        const depth = turned[2] + shiftMm[2];
        const [u = 0, v = 0] = photo[i] ?? [];
        // What lies behind the camera is no answer.
        if (depth <= 1e-9) return [Infinity, Infinity];
        return [
          centre[0] + (focalPx * (turned[0] + shiftMm[0])) / depth - u,
          centre[1] + (focalPx * (turned[1] + shiftMm[1])) / depth - v,
        ];
      });
      return focalSigma ? [...corners, (unknowns[6] ?? 0) / focalSigma] : corners;
    };
    const fitted = fit(
      off,
      Array.from({ length: focalSigma === 0 ? 6 : 7 }, () => 0),
    );
    const last = solve(fitted.normal, [0, 0, 0, 0, 0, 0, 1])[6] ?? Number.NaN;
    const logSigma = focalSigma !== 0 && last > 0 ? Math.sqrt(last) : Infinity;
    return {
      squares: squared(fitted.residuals),
      pose: poseAt(from, fitted.unknowns),
      logSigma,
      missPx: Math.sqrt(squared(fitted.residuals.slice(0, 2 * wall.length)) / wall.length),
      planeAt: (moved: readonly number[]) =>
        wallPlane(
          poseAt(
            from,
            fitted.unknowns.map((value, i) => value + (moved[i] ?? 0)),
          ),
          centre,
        ),
      normal: fitted.normal,
    };
  });
  const [one, other] = found;
  if (one === undefined || other === undefined) throw new RangeError("two starts give two fits");
  return other.squares < one.squares ? other : one;
}

const squared = (values: readonly number[]): number => values.reduce((sum, one) => sum + one * one, 0);

/** The camera of a pose; its last entry is 1. */
export function cameraOf({ focalPx, rotation, shiftMm }: Pose, centre: Point): Camera {
  const far = shiftMm[2];
  const depth = [...rotation[2], far] as const;
  const row = (at: 0 | 1): Camera[0] => {
    const entry = (value: number, i: 0 | 1 | 2 | 3): number => (focalPx * value + centre[at] * depth[i]) / far;
    const [x, y, z] = rotation[at];
    return [entry(x, 0), entry(y, 1), entry(z, 2), entry(shiftMm[at], 3)];
  };
  return [row(0), row(1), [depth[0] / far, depth[1] / far, depth[2] / far, 1]];
}

const wallPlane = (pose: Pose, centre: Point): Plane => planeOf(cameraOf(pose, centre));

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** The pose whose wall is tilted the other way about the line of sight to a point of it. */
function tiltedBack(pose: Pose, middle: Triple): Pose {
  const turnedMiddle = times(pose.rotation, middle);
  const there: Triple = [
    turnedMiddle[0] + pose.shiftMm[0],
    turnedMiddle[1] + pose.shiftMm[1],
    turnedMiddle[2] + pose.shiftMm[2],
  ];
  const sight = scaled(there, -1 / Math.hypot(...there));
  const normal = column(pose.rotation, 2);
  const axis = cross(normal, sight);
  const length = Math.hypot(...axis);
  if (length < 1e-9) return pose;
  const turn = rotationOf(scaled(axis, (2 * Math.atan2(length, dot(normal, sight))) / length));
  const rotation = product(turn, pose.rotation);
  const back = times(rotation, middle);
  return { ...pose, rotation, shiftMm: [there[0] - back[0], there[1] - back[1], there[2] - back[2]] };
}
