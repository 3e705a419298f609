/** The scale drawn into a still: a bar of a round length, and the size of the face as dimension lines. */

import { lengthShown, MM_PER_INCH, type Unit } from "../../units";
import type { Point } from "../camera/orbit";

/** A point of the picture, pixels from its top left corner. */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** Where a point of the room (metres) is seen. */
export type Project = (point: Point) => PicturePoint;

/** The face of what hangs there: its middle in the room (metres) and its size. */
export interface FacePlane {
  readonly centreM: Point;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface ScaleBar {
  readonly lengthMm: number;
  readonly lengthPx: number;
  readonly label: string;
}

/** The bar is at most this share of the picture's width. */
const LONGEST_SHARE = 0.3;

/** The longest of 1, 2 or 5 times a power of ten (mm, or inches) that is no longer than `mostMm`. */
export function roundLength(mostMm: number, unit: Unit): number {
  const one = unit === "mm" ? 1 : MM_PER_INCH;
  const most = mostMm / one;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((k) => k * power <= most * (1 + 1e-9)) ?? 1;
  return step * power * one;
}

/** Pixels under one millimetre along the width of the face, at its middle. */
export function pixelsPerMm(project: Project, { centreM: [x, y, z] }: FacePlane): number {
  const half = 0.0005;
  const [from, to] = [project([x - half, y, z]), project([x + half, y, z])];
  return Math.hypot(to.x - from.x, to.y - from.y);
}

/** The bar for a picture of so many pixels width. */
export function scaleBar(pxPerMm: number, widthPx: number, unit: Unit): ScaleBar {
  const lengthMm = roundLength((widthPx * LONGEST_SHARE) / pxPerMm, unit);
  return { lengthMm, lengthPx: lengthMm * pxPerMm, label: lengthShown(lengthMm, unit) };
}

/** A dimension line: from end to end, drawn so far outside of what it measures. */
export interface Dimension {
  readonly from: PicturePoint;
  readonly to: PicturePoint;
  readonly label: string;
}

/** Lines below the face and on its left in the picture, `offPx` outside of it; those that do not fit are left out. */
export function dimensions(
  project: Project,
  face: FacePlane,
  picture: { readonly widthPx: number; readonly heightPx: number },
  offPx: number,
  unit: Unit,
): readonly Dimension[] {
  const [x, y, z] = face.centreM;
  const [w, h] = [face.widthMm / 2000, face.heightMm / 2000];
  const at = (sx: number, sy: number): PicturePoint => project([x + sx * w, y + sy * h, z]);
  const middle = project([x, y, z]);
  const left = at(-1, 0).x <= at(1, 0).x ? -1 : 1;
  const lines = [
    { ends: [at(-1, -1), at(1, -1)], label: lengthShown(face.widthMm, unit) },
    { ends: [at(left, -1), at(left, 1)], label: lengthShown(face.heightMm, unit) },
  ] as const;
  const inside = ({ x: px, y: py }: PicturePoint): boolean =>
    px >= 0 && py >= 0 && px <= picture.widthPx && py <= picture.heightPx;
  return lines.flatMap(({ ends: [from, to], label }) => {
    const out = outwards(from, to, middle, offPx);
    const moved = [from, to].map((p) => ({ x: p.x + out.x, y: p.y + out.y }));
    const [start, end] = moved;
    return start !== undefined && end !== undefined && moved.every(inside) ? [{ from: start, to: end, label }] : [];
  });
}

/** Across a line, away from a point. */
function outwards(from: PicturePoint, to: PicturePoint, away: PicturePoint, length: number): PicturePoint {
  const along = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const across = { x: -(to.y - from.y) / along, y: (to.x - from.x) / along };
  const side = (from.x - away.x) * across.x + (from.y - away.y) * across.y < 0 ? -1 : 1;
  return { x: across.x * side * length, y: across.y * side * length };
}
