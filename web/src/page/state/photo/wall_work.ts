// The photographed wall: the photograph, what is marked on it, and where the piece hangs. It belongs to the job
// and is kept with it, never in it.
import { computed, signal } from "@preact/signals";
import { type Look, USUAL_SHADOW } from "../../../photo/light";
import { roughCorners } from "../../../photo/marked_wall";
import type { Edge } from "../../../photo/placing";
import type { Corners, Point } from "../../../photo/plane";
import type { Tool } from "../../../photo/state";
import type { Stroke } from "../../../photo/strokes";
import { readOnly } from "../keeping/mode";
import { middleOf, type MarkedReference } from "./reference_size";

/** The copy that the core made of a photograph: without metadata, and not larger than a screen can use. */
export interface WallPhotoFile {
  readonly name: string;
  readonly blob: Blob;
  /** Width and height; all places are in these pixels. */
  readonly px: Point;
  /** By the photograph's own file. */
  readonly focalPx?: number;
}

export interface WallWork {
  readonly photo: WallPhotoFile;
  readonly references: readonly MarkedReference[];
  /** The middle of what hangs, mm from the first reference's lower-left corner, right and up. */
  readonly at: Point;
  readonly edges: readonly Edge[];
  readonly strokes: readonly Stroke[];
  /** How much of the room's light the piece takes on, 0 to 1. */
  readonly roomLight: number;
  /** The shadow's strength, 0 to 1. */
  readonly shadow: number;
  /** The piece keeps the colours of the proof. */
  readonly proofColours: boolean;
}

export const wallWork = signal<WallWork | undefined>(undefined);
/** The copy as the browser draws it. */
export const wallImage = signal<ImageBitmap | undefined>(undefined);
export const tool = signal<Tool>("piece");
/** Of the brush, as a share of the photograph's longer side. */
export const brushShare = signal(0.012);
export const brushClears = signal(false);

/** Change some of it; nothing where another tab writes the job. */
export function changeWall(change: Partial<WallWork>): void {
  if (wallWork.value !== undefined && !readOnly.value) wallWork.value = { ...wallWork.value, ...change };
}

const USUAL_LOOK = { roomLight: 1, shadow: USUAL_SHADOW, proofColours: false };

/** A wall whose photograph was just opened; the piece will hang where its reference is. */
export function newWall(photo: WallPhotoFile): WallWork {
  const reference = { size: "a4" };
  return { photo, references: [reference], at: middleOf(reference), edges: [], strokes: [], ...USUAL_LOOK };
}

/** Whether corners still wait in the middle for a hand: nothing is measured by them. */
export function isRough(corners: Corners, px: Point): boolean {
  return roughCorners(px).every((at, i) => at.every((value, axis) => value === corners[i]?.[axis]));
}

/** How the piece takes the room's light, the direction aside. */
export const wallLook = computed<Omit<Look, "fromDeg">>(() => {
  const { roomLight, shadow, proofColours } = wallWork.value ?? USUAL_LOOK;
  return { amount: proofColours ? 0 : roomLight, shadow };
});
