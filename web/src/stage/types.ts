/** What the stage takes and gives; free of three, so that the page can name these types before the stage is loaded. */

import type { Place } from "../contract/types";

/** A step of the folding at the bench, from `start` to `end` on the way from 0 (flat) to 1 (folded). */
export interface StageStep {
  readonly name: string;
  readonly label: string;
  readonly start: number;
  readonly end: number;
  /** No rigid way through exists: the start is shown, then the end. */
  readonly hidden?: boolean;
}

/** The canvas as a triangle mesh at sampled positions from flat to folded. */
export interface StageFold {
  /** The sampled positions, rising from 0 to 1. */
  readonly at: Float32Array | readonly number[];
  /** (frames, vertices, 3), mm: origin at the face's lower-left corner, x right, y up, z towards the viewer. */
  readonly positions: Float32Array;
  /** (vertices, 2): fraction of the texture from its top-left corner. */
  readonly uv: Float32Array;
  /** (triangles, 3): counter-clockwise seen from the print side. */
  readonly triangles: Uint32Array;
  /** (segments, 2): pairs of vertices, creases first, then cuts. */
  readonly outlines: Uint32Array;
  /** How many of the outlines are creases. */
  readonly creaseCount: number;
  readonly stages: readonly StageStep[];
}

/** The flat canvas as pixels: RGBA, sRGB encoded, row 0 at the top. */
export interface StageTexture {
  readonly pixels: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The measures of the piece that the mesh alone does not tell. */
export interface StageSizes {
  readonly faceWidthMm: number;
  readonly faceHeightMm: number;
  readonly depthMm: number;
  readonly turnoverMm: number;
}

export type View = "front" | "side" | "corner" | "back";
export type Theme = "light" | "dark";

export interface StageOptions {
  /** The camera jumps instead of gliding. */
  readonly reducedMotion: boolean;
  /** The camera has been sent to a named view, or has been turned away from it by hand (`free`). */
  onView?(view: View | "free"): void;
  /** The graphics processor has dropped the stage; it comes back by itself, or not at all. */
  onLost?(): void;
  onRestored?(): void;
}

export interface Counters {
  /** Frames drawn since the stage was made. */
  readonly frames: number;
  /** Draw calls of the latest frame, and its triangles. */
  readonly drawCalls: number;
  readonly triangles: number;
}

export interface Stage {
  setFold(fold: StageFold, sizes: StageSizes): void;
  setTexture(texture: StageTexture): void;
  /** Show the canvas between flat (0) and folded (1). */
  setAt(at: number): void;
  setView(view: View): void;
  setTheme(theme: Theme): void;
  /** Turn the camera so that the place of a note is seen. */
  focusPlace(place: Place): void;
  /** A PNG of what the camera sees, at any size that the graphics processor can draw. */
  still(widthPx: number, heightPx: number): Promise<Blob>;
  /** Millimetres of the face's plane, at the face's centre, under one CSS pixel. */
  mmPerPixel(): number;
  /** Fit the drawing to the host's size; also done by itself when the host changes. */
  resize(): void;
  readonly counters: Counters;
  dispose(): void;
}

/** There is no WebGL 2 here; the page shows the flat view instead. */
export class StageUnavailable extends Error {
  override readonly name = "StageUnavailable";
}
