/** Where the camera stands: it turns about a target point. Metres and radians; wall z = 0, floor y = 0. */

export type Point = readonly [number, number, number];

export interface Pose {
  /** 0 in front of the face, positive to the viewer's right. */
  readonly azimuthRad: number;
  /** 0 level with the target, positive above. */
  readonly elevationRad: number;
  readonly distanceM: number;
  readonly target: Point;
}

export interface Limits {
  readonly nearestM: number;
  readonly furthestM: number;
  /** The target stays in this box. */
  readonly low: Point;
  readonly high: Point;
}

/** The camera looks up or down no steeper than this, so that the picture never turns over. */
export const STEEPEST_RAD = (78 * Math.PI) / 180;
/** The camera stays this far above the floor. */
export const ABOVE_FLOOR_M = 0.06;

/** The unit vector from the target to the camera. */
export function towards(pose: Pick<Pose, "azimuthRad" | "elevationRad">): Point {
  const level = Math.cos(pose.elevationRad);
  return [Math.sin(pose.azimuthRad) * level, Math.sin(pose.elevationRad), Math.cos(pose.azimuthRad) * level];
}

/** The camera's own right and up as unit vectors. */
export function sideways(pose: Pick<Pose, "azimuthRad" | "elevationRad">): { right: Point; up: Point } {
  const [sa, ca] = [Math.sin(pose.azimuthRad), Math.cos(pose.azimuthRad)];
  const [se, ce] = [Math.sin(pose.elevationRad), Math.cos(pose.elevationRad)];
  return { right: [ca, 0, -sa], up: [-sa * se, ce, -ca * se] };
}

export function eye(pose: Pose): Point {
  const [x, y, z] = towards(pose);
  const [tx, ty, tz] = pose.target;
  return [tx + x * pose.distanceM, ty + y * pose.distanceM, tz + z * pose.distanceM];
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** The nearest pose within the limits. */
export function hold(pose: Pose, limits: Limits): Pose {
  const distanceM = clamp(pose.distanceM, limits.nearestM, limits.furthestM);
  const target: Point = [
    clamp(pose.target[0], limits.low[0], limits.high[0]),
    clamp(pose.target[1], limits.low[1], limits.high[1]),
    clamp(pose.target[2], limits.low[2], limits.high[2]),
  ];
  // Height of the eye = target + distance x sin(elevation) must clear the floor.
  const lowest = Math.asin(clamp((ABOVE_FLOOR_M - target[1]) / distanceM, -1, 1));
  const elevationRad = clamp(pose.elevationRad, Math.max(-STEEPEST_RAD, lowest), STEEPEST_RAD);
  return { azimuthRad: pose.azimuthRad, elevationRad, distanceM, target };
}

/** The same direction as `azimuthRad`, at most half a turn away from `fromRad`. */
export function nearestTurn(azimuthRad: number, fromRad: number): number {
  const turn = 2 * Math.PI;
  return azimuthRad + turn * Math.round((fromRad - azimuthRad) / turn);
}

/** Turn by angles. */
export function turned(pose: Pose, azimuthRad: number, elevationRad: number): Pose {
  return {
    ...pose,
    azimuthRad: pose.azimuthRad + azimuthRad,
    elevationRad: pose.elevationRad + elevationRad,
  };
}

/** Move the target by metres along the camera's right and up. */
export function panned(pose: Pose, rightM: number, upM: number): Pose {
  const { right, up } = sideways(pose);
  const [x, y, z] = pose.target;
  return {
    ...pose,
    target: [
      x + right[0] * rightM + up[0] * upM,
      y + right[1] * rightM + up[1] * upM,
      z + right[2] * rightM + up[2] * upM,
    ],
  };
}

/** Come nearer (factor below 1) or step back. */
export function zoomed(pose: Pose, factor: number): Pose {
  return { ...pose, distanceM: pose.distanceM * factor };
}
