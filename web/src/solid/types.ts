/** The solid's interface; free of three, so that the page can use these types before the solid is loaded. */

import type { Theme } from "../stage/types";

/** A canvas's gamut: a closed surface in CIELAB, relative to the canvas's white. */
export interface SolidMesh {
  /** (n, 3): L*, a*, b*. */
  readonly lab: Float32Array;
  /** (n, 3), sRGB encoded. */
  readonly srgb: Uint8Array;
  /** (triangles, 3): counter-clockwise seen from outside, with a* right, b* up, L* towards the viewer. */
  readonly triangles: Uint32Array;
}

/** The picture's colours. */
export interface SolidPoints {
  /** (n, 3): what the canvas is asked for. */
  readonly lab: Float32Array;
  /** (n, 3): what it prints instead. */
  readonly printedLab: Float32Array;
  /** (n, 3), sRGB encoded, as filed. */
  readonly srgb: Uint8Array;
  /** (n): of the picture, 0 to 1. */
  readonly share: Float32Array;
  /** (n): CIEDE2000 by which each clips; 0 inside. */
  readonly difference: Float32Array;
}

export interface SolidOptions {
  /** The camera jumps instead of gliding. */
  readonly reducedMotion: boolean;
}

export interface Solid {
  setSolid(mesh: SolidMesh): void;
  setPoints(points: SolidPoints): void;
  /** What is lost by more than this CIEDE2000 is marked. */
  setThreshold(de: number): void;
  setTheme(theme: Theme): void;
  /** Fit the drawing to the host's size; also done by itself when the host changes. */
  resize(): void;
  /** Frames drawn since it was made. */
  readonly frames: number;
  dispose(): void;
}
