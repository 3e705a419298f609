/** How the room's light looks on the wall, and how a piece takes it on. The same numbers as the core's. */
import type { Point, Triple } from "./plane";

export interface RoomLight {
  /** Linear sRGB of the reference's surface at its middle. */
  readonly white: Triple;
  readonly middleMm: Point;
  /** The logarithm of the light by mm, to the right and up. */
  readonly fall: Point;
  /** The light differs from that at the middle by no more. */
  readonly mostFactor: number;
}

/** How strong the shadow is until a hand sets it. */
export const USUAL_SHADOW = 0.7;

export interface Look {
  /** How much of the room's light the piece takes on, 0 to 1. */
  readonly amount: number;
  /** The shadow's strength, 0 to 1. */
  readonly shadow: number;
  /** Where the light comes from: degrees clockwise from above. */
  readonly fromDeg: number;
}

/** A place on the paper in shares of its width and height: edges are blurred, corners taped. */
const INSET = 0.15;
const PLACES = 32;
/** Published: ITU-R BT.709. */
const LUMINANCE: Triple = [0.2126, 0.7152, 0.0722];

/** The mean of the middle half of a paper's places by brightness: folds, tape and writing are left out. */
export function paperWhite(places: readonly Triple[]): Triple {
  if (places.length === 0) return [1, 1, 1];
  const bright = ([r, g, b]: Triple): number => LUMINANCE[0] * r + LUMINANCE[1] * g + LUMINANCE[2] * b;
  const sorted = places.toSorted((one, other) => bright(one) - bright(other));
  const middle = sorted.slice(Math.floor(sorted.length / 4), Math.ceil((3 * sorted.length) / 4));
  const mean = (channel: 0 | 1 | 2): number => middle.reduce((sum, one) => sum + one[channel], 0) / middle.length;
  return [mean(0), mean(1), mean(2)];
}

/** Where a paper of a size is looked at, mm from its lower-left corner. */
export function paperPlaces([width, height]: Point): Point[] {
  const shares = Array.from({ length: PLACES }, (_, i) => INSET + ((1 - 2 * INSET) * i) / (PLACES - 1));
  return shares.flatMap((x) => shares.map((y): Point => [x * width, y * height]));
}
