/**
 * Things of known size that stand beside a piece, in metres: floor y = 0, wall z = 0, their left edge x = 0.
 *
 * Sizes are common practice, no source: a door leaf of 2000 x 800 mm, a seat 450 mm above the floor, a person of 1700 mm.
 */

import type { Beside } from "../../contract/types";
import { type SolidMesh, Solids } from "../drawing/solids";

/** A soft shadow: that of a rectangle on the wall (x, y) or on the floor (x, z), blurred by `soft` metres. */
export interface SoftShadow {
  readonly on: "wall" | "floor";
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
  readonly soft: number;
  /** Share of the light that it takes away. */
  readonly dark: number;
  /** How far what casts it stands off the wall: its shadow moves with the light by that much. */
  readonly offM: number;
}

export interface Neighbour {
  readonly widthM: number;
  readonly heightM: number;
  /** How far it stands out from the wall. */
  readonly frontM: number;
  readonly solids: SolidMesh;
  readonly shadows: readonly SoftShadow[];
  /** A person is an outline: drawn by the shader, this far off the wall. */
  readonly outlineOffM?: number;
}

const DOOR_LEAF_M = [0.8, 2.0] as const;
const SEAT_M = 0.45;
export const PERSON_M = 1.7;
/** Room between the piece and what stands beside it. */
export const BESIDE_GAP_M = 0.35;

const FRAME_WIDE_M = 0.07;
const CHAIR_WIDE_M = 0.44;
const CHAIR_HIGH_M = 0.84;
const PERSON_WIDE_M = 0.62;

function door(): Neighbour {
  const [wide, high] = DOOR_LEAF_M;
  const solids = new Solids();
  const right = FRAME_WIDE_M + wide;
  // Architrave, then the leaf a little behind it; both in front of the skirting board.
  solids.box([0, 0, 0], [FRAME_WIDE_M, high + FRAME_WIDE_M, 0.03], 1.05);
  solids.box([right, 0, 0], [right + FRAME_WIDE_M, high + FRAME_WIDE_M, 0.03], 1.05);
  solids.box([FRAME_WIDE_M, high, 0], [right, high + FRAME_WIDE_M, 0.03], 1.05);
  solids.box([FRAME_WIDE_M + 0.003, 0, 0], [right - 0.003, high - 0.003, 0.018], 1);
  // A handle at the height of the hand.
  solids.box([FRAME_WIDE_M + 0.04, 1.02, 0.018], [FRAME_WIDE_M + 0.07, 1.12, 0.024], 0.7);
  solids.box([FRAME_WIDE_M + 0.045, 1.055, 0.05], [FRAME_WIDE_M + 0.165, 1.075, 0.07], 0.7);
  solids.box([FRAME_WIDE_M + 0.045, 1.055, 0.024], [FRAME_WIDE_M + 0.065, 1.075, 0.05], 0.7);
  const widthM = right + FRAME_WIDE_M;
  return {
    widthM,
    heightM: high + FRAME_WIDE_M,
    frontM: 0.07,
    solids: solids.mesh(),
    shadows: [
      { on: "wall", low: [0, 0], high: [widthM, high + FRAME_WIDE_M], soft: 0.012, dark: 0.3, offM: 0.02 },
      { on: "floor", low: [0, 0], high: [widthM, 0.04], soft: 0.03, dark: 0.3, offM: 0 },
    ],
  };
}

function chair(): Neighbour {
  const solids = new Solids();
  const [back, front] = [0.08, 0.5];
  const leg = 0.034;
  const right = CHAIR_WIDE_M - leg;
  // A gap of a millimetre keeps faces from sharing a plane.
  for (const x of [0, right]) {
    solids.box([x, 0, back], [x + leg, CHAIR_HIGH_M, back + leg], 1);
    solids.box([x, 0, front - leg], [x + leg, SEAT_M - 0.026, front], 1);
  }
  solids.box([-0.006, SEAT_M - 0.025, back + leg + 0.001], [CHAIR_WIDE_M + 0.006, SEAT_M, front + 0.008], 1.08);
  for (const y of [0.6, 0.71]) {
    solids.box([leg - 0.002, y, back + 0.006], [right + 0.002, y + 0.075, back + 0.024], 1.04);
  }
  for (const z of [back + 0.008, front - 0.026]) {
    solids.box([leg - 0.002, SEAT_M - 0.08, z], [right + 0.002, SEAT_M - 0.026, z + 0.018], 0.96);
  }
  for (const x of [0.008, right + 0.008]) {
    solids.box([x, SEAT_M - 0.08, back + leg - 0.002], [x + 0.018, SEAT_M - 0.026, front - leg + 0.002], 0.96);
  }
  type Corner = readonly [number, number];
  const wall = (low: Corner, high: Corner, offM: number, dark: number): SoftShadow => ({
    on: "wall",
    low,
    high,
    soft: 0.02 + offM * 0.16,
    dark,
    offM,
  });
  const foot = (x: number, z: number): SoftShadow => ({
    on: "floor",
    low: [x - 0.004, z - 0.004],
    high: [x + leg + 0.004, z + leg + 0.004],
    soft: 0.014,
    dark: 0.5,
    offM: 0,
  });
  return {
    widthM: CHAIR_WIDE_M,
    heightM: CHAIR_HIGH_M,
    frontM: front,
    solids: solids.mesh(),
    shadows: [
      wall([leg, 0.6], [right, 0.785], back, 0.34),
      wall([0, 0.47], [leg, CHAIR_HIGH_M], back, 0.3),
      wall([right, 0.47], [CHAIR_WIDE_M, CHAIR_HIGH_M], back, 0.3),
      wall([0, SEAT_M - 0.05], [CHAIR_WIDE_M, SEAT_M], 0.28, 0.3),
      { on: "floor", low: [0.02, back], high: [CHAIR_WIDE_M - 0.02, front], soft: 0.09, dark: 0.3, offM: 0 },
      foot(0, back),
      foot(right, back),
      foot(0, front - leg),
      foot(right, front - leg),
    ],
  };
}

function person(): Neighbour {
  const offM = 0.3;
  const middle = PERSON_WIDE_M / 2;
  return {
    widthM: PERSON_WIDE_M,
    heightM: PERSON_M,
    frontM: offM,
    solids: new Solids().mesh(),
    shadows: [
      {
        on: "floor",
        low: [middle - 0.17, offM - 0.06],
        high: [middle + 0.17, offM + 0.1],
        soft: 0.05,
        dark: 0.45,
        offM: 0,
      },
      { on: "floor", low: [middle - 0.2, 0.02], high: [middle + 0.24, offM], soft: 0.1, dark: 0.16, offM: 0 },
    ],
    outlineOffM: offM,
  };
}

/** The object beside the piece, or undefined. */
export function neighbour(beside: Beside): Neighbour | undefined {
  switch (beside) {
    case "nothing":
      return undefined;
    case "door":
      return door();
    case "chair":
      return chair();
    case "person":
      return person();
  }
}
