/** Points, homographies and cameras of a photographed wall, as plain numbers. */

export type Point = readonly [number, number];
/** Upper left, upper right, lower right, lower left. */
export type Corners = readonly [Point, Point, Point, Point];
export type Triple = readonly [number, number, number];
type Four = readonly [number, number, number, number];
/** From mm on the wall (x right, y up) to pixels of the photograph, row by row. */
export type Plane = readonly [Triple, Triple, Triple];
/** From (x, y, z, 1) in mm on the wall, z towards the room, to pixels of the photograph, row by row. */
export type Camera = readonly [Four, Four, Four];

/** Map a point by a homography; infinite or not a number where it maps to infinity. */
export function mapped([first, second, third]: Plane, [x, y]: Point): Point {
  const depth = third[0] * x + third[1] * y + third[2];
  return [(first[0] * x + first[1] * y + first[2]) / depth, (second[0] * x + second[1] * y + second[2]) / depth];
}

/** The inverse of a homography or of any other matrix of three rows. */
export function inverse([a, b, c]: Plane): Plane {
  const minor = (one: Triple, other: Triple, left: 0 | 1 | 2, right: 0 | 1 | 2): number =>
    one[left] * other[right] - one[right] * other[left];
  const whole = a[0] * minor(b, c, 1, 2) - a[1] * minor(b, c, 0, 2) + a[2] * minor(b, c, 0, 1);
  return [
    [minor(b, c, 1, 2) / whole, -minor(a, c, 1, 2) / whole, minor(a, b, 1, 2) / whole],
    [-minor(b, c, 0, 2) / whole, minor(a, c, 0, 2) / whole, -minor(a, b, 0, 2) / whole],
    [minor(b, c, 0, 1) / whole, -minor(a, c, 0, 1) / whole, minor(a, b, 0, 1) / whole],
  ];
}

/** The product of two matrices. */
export function product(left: Plane, right: Plane): Plane {
  const row = (one: Triple): Triple => {
    const entry = (at: 0 | 1 | 2): number => one[0] * right[0][at] + one[1] * right[1][at] + one[2] * right[2][at];
    return [entry(0), entry(1), entry(2)];
  };
  return [row(left[0]), row(left[1]), row(left[2])];
}

/** The wall's own homography of a camera. */
export function planeOf([a, b, c]: Camera): Plane {
  return [
    [a[0], a[1], a[3]],
    [b[0], b[1], b[3]],
    [c[0], c[1], c[3]],
  ];
}

/** How far a place is before the camera, where the wall's origin is at 1. */
export function depthAt(camera: Camera, [x, y, z]: Triple): number {
  const row = camera[2];
  return row[0] * x + row[1] * y + row[2] * z + row[3];
}

/** Where a place is seen. */
export function seenAt(camera: Camera, place: Triple): Point {
  const [x, y, z] = place;
  const depth = depthAt(camera, place);
  const [a, b] = camera;
  return [(a[0] * x + a[1] * y + a[2] * z + a[3]) / depth, (b[0] * x + b[1] * y + b[2] * z + b[3]) / depth];
}

/** The place at a height over the wall that is seen at a point of the photograph. */
export function placeAt([a, b, c]: Camera, point: Point, z: number): Point {
  const raised: Plane = [
    [a[0], a[1], a[2] * z + a[3]],
    [b[0], b[1], b[2] * z + b[3]],
    [c[0], c[1], c[2] * z + c[3]],
  ];
  return mapped(inverse(raised), point);
}
