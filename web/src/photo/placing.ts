/** A piece's place on the wall in numbers: its outline in the photograph, and what is measured from its edges. Pure. */
import type { StagePiece } from "../stage/types";
import { type Camera, type Corners, depthAt, type Point, seenAt } from "./plane";

/** What hangs together: width and height of all, and the depth of the bars. */
export interface HungSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
}

/** A line on the wall that distances are measured to; `at` is its height (floor, above, below) or its place to the right. */
export type EdgeKind = "floor" | "below" | "above" | "left" | "right";
export interface Edge {
  readonly kind: EdgeKind;
  readonly atMm: number;
}

/** The room that pieces take round the middle of what hangs. */
export function hungSize(pieces: readonly StagePiece[]): HungSize {
  const ends = (axis: 0 | 1, half: (piece: StagePiece) => number): number => {
    const low = Math.min(...pieces.map((piece) => piece.centreMm[axis] - half(piece)));
    const high = Math.max(...pieces.map((piece) => piece.centreMm[axis] + half(piece)));
    return high - low;
  };
  return {
    widthMm: ends(0, ({ sizes }) => sizes.faceWidthMm / 2),
    heightMm: ends(1, ({ sizes }) => sizes.faceHeightMm / 2),
    depthMm: Math.max(...pieces.map(({ sizes }) => sizes.depthMm)),
  };
}

/** The front's corners on the photograph. */
export function frontOutline(camera: Camera, [x, y]: Point, { widthMm, heightMm, depthMm }: HungSize): Corners {
  const corner = (right: number, up: number): Point =>
    seenAt(camera, [x + (right * widthMm) / 2, y + (up * heightMm) / 2, depthMm]);
  return [corner(-1, 1), corner(1, 1), corner(1, -1), corner(-1, -1)];
}

/** A place whose scale is below this share of that at the reference is nearly on the wall's vanishing line. */
const VANISHING = 0.02;

/** Whether the middle of a piece is seen there, and none of it runs past the camera. */
export function isSeen(camera: Camera, at: Point, size: HungSize, photo: Point): boolean {
  if (!isBeforeCamera(camera, at, size)) return false;
  const [x, y] = seenAt(camera, [at[0], at[1], size.depthMm]);
  return x >= 0 && y >= 0 && x <= photo[0] && y <= photo[1];
}

function isBeforeCamera(camera: Camera, at: Point, size: HungSize): boolean {
  const { widthMm, heightMm, depthMm } = size;
  for (const right of [-1, 1]) {
    for (const up of [-1, 1]) {
      for (const z of [0, depthMm]) {
        const place = [at[0] + (right * widthMm) / 2, at[1] + (up * heightMm) / 2, z] as const;
        if (depthAt(camera, place) < VANISHING) return false;
      }
    }
  }
  return true;
}

/** Whether a piece reaches over two opposite edges of the photograph, or past the camera: the wall in view is too small. */
export function isLarger(camera: Camera, at: Point, size: HungSize, photo: Point): boolean {
  if (!isBeforeCamera(camera, at, size)) return true;
  const outline = frontOutline(camera, at, size);
  return photo.some((side, axis) => {
    const places = outline.map((corner) => corner[axis] ?? 0);
    return Math.min(...places) < 0 && Math.max(...places) > side;
  });
}

/** The gap from the piece to an edge, mm; negative where the piece reaches over it. Of the floor: from the middle. */
export function distanceMm({ kind, atMm }: Edge, [x, y]: Point, { widthMm, heightMm }: HungSize): number {
  switch (kind) {
    case "floor":
      return y - atMm;
    case "below":
      return y - heightMm / 2 - atMm;
    case "above":
      return atMm - y - heightMm / 2;
    case "left":
      return x - widthMm / 2 - atMm;
    case "right":
      return atMm - x - widthMm / 2;
  }
}

/** Whether an edge runs across the wall, not up it. */
export function isLevel(kind: EdgeKind): boolean {
  return kind === "floor" || kind === "below" || kind === "above";
}

/** The step of an arrow key in whole steps: right and up, ten with Shift; undefined for any other key. */
export function keyStep({ key, shiftKey }: Pick<KeyboardEvent, "key" | "shiftKey">): Point | undefined {
  const by = shiftKey ? 10 : 1;
  switch (key) {
    case "ArrowLeft":
      return [-by, 0];
    case "ArrowRight":
      return [by, 0];
    case "ArrowUp":
      return [0, by];
    case "ArrowDown":
      return [0, -by];
    default:
      return undefined;
  }
}
