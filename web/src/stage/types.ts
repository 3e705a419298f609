/** The stage's interface; free of three, so that the page can use these types before the stage is loaded. */

import type { Finish, OverPair, Place, Surroundings } from "../contract/types";
import type { Unit } from "../units";

/** A folding step, from `start` to `end` between 0 (flat) and 1 (folded). */
export interface FoldStep {
  readonly name: string;
  readonly label: string;
  readonly start: number;
  readonly end: number;
  /** No rigid motion exists: the start is shown, then the end. */
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
  readonly steps: readonly FoldStep[];
}

/** Pixels of the texture from `left` and `top` on, `right` and `bottom` left out. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The flat canvas as pixels: RGBA, row 0 at the top, in the picture's own encoding (sRGB while there is no look). */
export interface StageTexture {
  readonly pixels: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** What the printer prints; all of it when left out. Outside lies bare canvas, which never clips. */
  readonly inked?: PixelBox;
}

/** As the picture's file says, as its print will look, or how far each colour is lost. */
export type ColourView = "filed" | "printed" | "clip";

/** Tables from the picture's own colours to the screen's. */
export interface Look {
  /** Nodes of each table along red, green and blue. */
  readonly nodes: number;
  /** (256, 4): where each byte of red, green and blue lies among the nodes, 0 to `nodes` - 1; the fourth is 0. */
  readonly curve: Float32Array;
  /**
   * (blue, green, red, 4), to be interpolated by tetrahedra: bits of half floats: the print on the screen as encoded RGB, full scale 1, to be held
   * to 0 to 1 after interpolating; and the difference by which the colour clips, full scale `clipFullDe`.
   */
  readonly printed: Uint16Array;
  /** The same for the file as it is; absent where the texture already is what the screen wants. */
  readonly filed?: Uint16Array;
  /** CIEDE2000 that 1 in the table's fourth channel stands for. */
  readonly clipFullDe: number;
  /** (steps, 3), sRGB encoded: the clip map's colours from nothing lost to `scaleFullDe`. */
  readonly scale: Uint8Array;
  readonly scaleFullDe: number;
}

/** The hue group of each pixel: 0 none, else 1 to 8. Covers all of the texture. */
export interface StageLabels {
  readonly labels: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The measures of the piece that the mesh alone does not tell. */
export interface StageSizes {
  readonly faceWidthMm: number;
  readonly faceHeightMm: number;
  readonly depthMm: number;
  readonly turnoverMm: number;
  /** Width of a bar, where the job has its own. */
  readonly barWidthMm?: number;
  /** The most that it may weigh; a heavy piece hangs without a wire. Light when left out. */
  readonly weighsG?: number;
  /** How the corners are folded, for the shade at their seams; none is drawn when left out. */
  readonly corners?: { readonly finish: Finish; readonly over: OverPair };
}

/** One canvas on its bars. Pieces may share a fold and a texture; what is the same object is kept once. */
export interface StagePiece {
  readonly fold: StageFold;
  readonly sizes: StageSizes;
  /** Bare canvas while there is none. */
  readonly texture?: StageTexture;
  /** Rows of the texture that are this piece's own; all of them when left out. The fold's `uv` covers just these. */
  readonly rows?: { readonly topPx: number; readonly bottomPx: number };
  /** What the printer prints of its own rows, counted from the first of them; as the texture says when left out. */
  readonly inked?: PixelBox;
  /** Of its face, mm from the middle of what hangs in the pane: x right, y up. */
  readonly centreMm: readonly [number, number];
}

/** What hangs together on one wall: one piece, or a group of panels. Several panes share light and camera. */
export interface StagePane {
  readonly pieces: readonly StagePiece[];
  /** Of its own; otherwise the stage's. */
  readonly look?: Look;
}

export type View = "front" | "side" | "corner" | "back";
export type Theme = "light" | "dark";

export interface StageOptions {
  /** The camera jumps instead of gliding. */
  readonly reducedMotion: boolean;
  /** The camera was sent to a named view, or the user has turned it away from one (`free`). */
  onView?(view: View | "free"): void;
  /** The graphics processor has dropped the stage; it comes back by itself, or not at all. */
  onLost?(): void;
  /** It has not come back for some seconds: a still picture of the latest frame stays. */
  onGivenUp?(): void;
  onRestored?(): void;
}

export interface Counters {
  /** Frames drawn since the stage was made. */
  readonly frames: number;
  /** Draw calls of the latest frame, and its triangles, of all panes. */
  readonly drawCalls: number;
  readonly triangles: number;
  /** Pictures on the graphics processor, and their bytes with the smaller copies of each. */
  readonly textures: number;
  readonly textureBytes: number;
}

/** The differences of a still from the screen. */
export interface StillOptions {
  /** From a named view; as the camera stands when left out. */
  readonly view?: View;
  /** Between flat (0) and folded (1); as it is shown when left out. */
  readonly at?: number;
  /** Draw a scale into the picture, in this unit. */
  readonly scale?: Unit;
}

export interface Stage {
  /** Show one to four panes; what is the same object as before stays on the graphics processor. */
  setPanes(panes: readonly StagePane[]): void;
  /** Set the tables of the colour views; the view that is shown stays. */
  setLook(look: Look): void;
  /** One frame and nothing else. Without a look every view shows the texture as it is. */
  setColourView(view: ColourView): void;
  /** The clip map marks what is lost by more than this CIEDE2000. */
  setThreshold(de: number): void;
  /** Set the hue group of every pixel of the first pane, for `highlight`; the size may be smaller than the texture's. */
  setLabels(labels: Uint8Array, widthPx: number, heightPx: number): void;
  /** Highlight one hue group of the first pane by an outline, while the rest turns pale; 0 ends it. */
  highlight(group: number): void;
  /** Show the canvas between flat (0) and folded (1). */
  setAt(at: number): void;
  setView(view: View): void;
  setTheme(theme: Theme): void;
  /** Wall, light, and what of known size stands beside the piece. */
  setSurroundings(surroundings: Surroundings): void;
  /** Keep the foot of every pane clear of what hangs there, so many CSS pixels high, for a caption. */
  setFoot(footPx: number): void;
  /** Turn the camera so that the place of a note is seen. */
  focusPlace(place: Place): void;
  /** A PNG of what the camera sees, of up to `LARGEST_STILL_PX` along either side. */
  still(widthPx: number, heightPx: number, options?: StillOptions): Promise<Blob>;
  /**
   * The first pane's piece turned round its upright axis by an angle, without the room: RGBA, rows from the top.
   * The light turns with it, so that its colours stay what the texture says.
   */
  frame(widthPx: number, heightPx: number, turnRad: number): Promise<Uint8Array>;
  /** Millimetres of the face's plane, at the face's centre, under one CSS pixel. */
  mmPerPixel(): number;
  /** Fit the drawing to the host's size; also done by itself when the host changes. */
  resize(): void;
  readonly counters: Counters;
  dispose(): void;
}

/** Nothing can be drawn here, without WebGL 2 or any canvas; the page shows the flat view instead. */
export class StageUnavailable extends Error {
  override readonly name = "StageUnavailable";
}
