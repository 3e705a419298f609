/** What a view of a photographed wall shows, and what hands do in it. */
import type { StagePiece } from "../stage/types";
import type { Look, RoomLight } from "./light";
import type { Edge, EdgeKind } from "./placing";
import type { Camera, Corners, Point } from "./plane";
import type { Stroke } from "./strokes";

/** A photograph that can be drawn, and its width and height in the pixels that places are in. */
export interface Photo {
  readonly image: ImageBitmap;
  readonly px: Point;
}

/** What is moved by hand. */
export type Tool = "piece" | "corners" | "edges" | "brush";

export interface PhotoState {
  readonly photo: Photo;
  /** `none` where nothing is moved. */
  readonly tool: Tool | "none";
  readonly references: readonly Corners[];
  /** What was measured; without it no piece hangs. */
  readonly wall?: { readonly camera: Camera; readonly light: RoomLight };
  readonly pieces: readonly StagePiece[];
  /** The middle of what hangs, mm on the wall. */
  readonly at: Point;
  readonly look: Look;
  readonly edges: readonly Edge[];
  readonly strokes: readonly Stroke[];
  /** Of the brush, pixels of the photograph. */
  readonly radiusPx: number;
  readonly clears: boolean;
  /** For those who do not see it. */
  readonly words: PhotoWords;
}

export interface PhotoWords {
  /** Place and size of the piece. */
  readonly piece: string;
  readonly corner: (reference: number, corner: number) => string;
  readonly edge: (kind: EdgeKind) => string;
}

/** What hands did; `done` when they let go. */
export interface PhotoHands {
  moveCorner(reference: number, corner: number, to: Point, done: boolean): void;
  movePiece(to: Point, done: boolean): void;
  moveEdge(kind: EdgeKind, atMm: number, done: boolean): void;
  paint(stroke: Stroke): void;
  undoStroke(): void;
}
