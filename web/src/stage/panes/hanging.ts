/** The places of pieces on the wall: one alone, a group of panels, or several panes under one camera. */

import type { PieceShape } from "../piece/piece_shape";
import type { Hanging } from "../camera/views";

/** The middle of a picture hangs at the height of the eye: 1.5 m. Common practice, no source. */
const HANGING_HEIGHT_M = 1.5;
/** A tall piece still clears the floor by this much. */
const ABOVE_FLOOR_M = 0.25;
/** Its flat sheet, or the lowest of a group, by this much. */
const SHEET_ABOVE_FLOOR_M = 0.03;
/** Unfolded sheets of a group keep this share of their overhang between them. */
const BETWEEN_SHEETS = 0.12;

/** A piece and the middle of its face from the middle of its pane, mm. */
export interface Hung {
  readonly shape: Shaped;
  readonly centreMm: readonly [number, number];
}

/** The part of a piece's shape that decides its place. */
type Shaped = Pick<PieceShape, "sizes" | "settledMm" | "flatOverMm">;

/** How far each piece goes past its face, right and up. */
type Over = readonly [number, number];

/**
 * How many times as far apart the pieces of a group must hang so that their sheets do not lie on each other.
 *
 * A group hangs so closely that its unfolded sheets would cross; they are moved apart as they open.
 */
export function apart(pieces: readonly Hung[], over: readonly Over[]): number {
  let times = 1;
  pieces.forEach((one, i) => {
    pieces.slice(0, i).forEach((other, j) => {
      const off = [
        Math.abs(one.centreMm[0] - other.centreMm[0]),
        Math.abs(one.centreMm[1] - other.centreMm[1]),
      ] as const;
      const along = off[0] >= off[1] ? 0 : 1;
      if (off[along] === 0) return;
      const faces = along === 0 ? faceWidths(one, other) : faceHeights(one, other);
      const overs = (over[i]?.[along] ?? 0) + (over[j]?.[along] ?? 0);
      if (overs > 0) times = Math.max(times, (faces / 2 + overs * (1 + BETWEEN_SHEETS)) / off[along]);
    });
  });
  return times;
}

const faceWidths = (one: Hung, other: Hung): number => one.shape.sizes.faceWidthMm + other.shape.sizes.faceWidthMm;
const faceHeights = (one: Hung, other: Hung): number => one.shape.sizes.faceHeightMm + other.shape.sizes.faceHeightMm;

/**
 * The room that panes take, so large that every one of them fits in: all hang about the same middle.
 *
 * `open` counts what the sheets of a group move apart when they are unfolded.
 */
export function hangingOf(panes: readonly (readonly Hung[])[], open: boolean): Hanging {
  const most = { right: 0, up: 0, depth: 0, settled: 0, spread: 0, down: 0 };
  for (const pieces of panes) {
    const timesOpen = apart(
      pieces,
      pieces.map(({ shape }) => shape.flatOverMm),
    );
    const times = open ? timesOpen : 1;
    for (const { shape, centreMm } of pieces) {
      const { faceWidthMm, faceHeightMm, depthMm } = shape.sizes;
      const further = (times - 1) * Math.max(Math.abs(centreMm[0]), Math.abs(centreMm[1]));
      most.right = Math.max(most.right, Math.abs(centreMm[0]) + faceWidthMm / 2);
      most.up = Math.max(most.up, Math.abs(centreMm[1]) + faceHeightMm / 2);
      // Counted when it is folded too, so that it hangs as high then and does not move as it opens.
      most.down = Math.max(most.down, -centreMm[1] * timesOpen + faceHeightMm / 2 + shape.flatOverMm[1]);
      most.depth = Math.max(most.depth, depthMm);
      most.settled = Math.max(most.settled, depthMm + shape.settledMm);
      most.spread = Math.max(most.spread, Math.max(...shape.flatOverMm) + further);
    }
  }
  const heightM = (2 * most.up) / 1000;
  const highM = Math.max(HANGING_HEIGHT_M, heightM / 2 + ABOVE_FLOOR_M, most.down / 1000 + SHEET_ABOVE_FLOOR_M);
  return {
    centre: [0, highM, most.settled / 1000],
    widthM: (2 * most.right) / 1000,
    heightM,
    depthM: most.depth / 1000,
    spreadM: most.spread / 1000,
    unfolded: open,
  };
}
