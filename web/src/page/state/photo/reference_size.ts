// A reference on the wall, and its size as the core's word for it. Pure.
import type { Corners, Point } from "../../../photo/plane";
import { ANSI, ISO_A } from "../layout/sizes";

/** A thing of known size on the wall. */
export interface MarkedReference {
  /** As the core takes it: a4, letter, or WIDTHxHEIGHT in mm. */
  readonly size: string;
  /** Absent until it is found or marked. */
  readonly corners?: Corners;
}

export type SizeKind = "a4" | "letter" | "own";

export function sizeKind(size: string): SizeKind {
  if (size.startsWith("a4")) return "a4";
  return size.startsWith("letter") ? "letter" : "own";
}

/** Width and height of a size of one's own. */
export function ownSize(size: string): { readonly width_mm: number; readonly height_mm: number } {
  const [width = 80, height = width] = size.split("x").map(Number).filter(Number.isFinite);
  return { width_mm: width, height_mm: height };
}

/** The sheets that have a word, upright. */
const SHEETS = { a4: ISO_A.find(({ name }) => name === "A4"), letter: ANSI[0] };

/** The middle of a reference, mm from its lower-left corner; a sheet lies where its corners are wider than high. */
export function middleOf({ size, corners }: MarkedReference): Point {
  const kind = sizeKind(size);
  const { width_mm, height_mm = width_mm } = (kind === "own" ? undefined : SHEETS[kind]) ?? ownSize(size);
  const lies = kind !== "own" && corners !== undefined && extent(corners, 0) > extent(corners, 1);
  return lies ? [height_mm / 2, width_mm / 2] : [width_mm / 2, height_mm / 2];
}

function extent(corners: Corners, axis: 0 | 1): number {
  const along = corners.map((corner) => corner[axis]);
  return Math.max(...along) - Math.min(...along);
}
