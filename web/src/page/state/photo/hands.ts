// What hands do on the photographed wall.
import { batch } from "@preact/signals";
import { type Edge, type EdgeKind, hungSize, isSeen } from "../../../photo/placing";
import { placeAt, type Point } from "../../../photo/plane";
import type { PhotoHands } from "../../../photo/state";
import type { Stroke } from "../../../photo/strokes";
import { clearFieldErrors } from "../page/fields";
import { changeReference, PLACE } from "./open_wall";
import { seenWall, wallHeld, wallPieces } from "./measured";
import { changeWall, wallWork } from "./wall_work";

/** Common practice: the eye of somebody who stands; galleries hang the middle of pictures there. */
export const EYE_HEIGHT_MM = 1450;

/** Bring the piece to a place on the wall; the core refuses what the photograph does not show. */
export function movePiece(at: Point): void {
  clearFieldErrors(PLACE);
  changeWall({ at: [Math.round(at[0] * 10) / 10, Math.round(at[1] * 10) / 10] });
}

/** Mark an edge: at first in the middle between the piece and the photograph's own edge. */
export function markEdge(kind: EdgeKind): void {
  const [now, wall, [pieces]] = [wallWork.value, seenWall.value, wallPieces.value];
  if (now === undefined || wall === undefined) return;
  const size = pieces === undefined ? { widthMm: 0, heightMm: 0, depthMm: 0 } : hungSize(pieces);
  const [width, height] = now.photo.px;
  const ends: Record<EdgeKind, Point> = {
    floor: [width / 2, height],
    below: [width / 2, height],
    above: [width / 2, 0],
    left: [0, height / 2],
    right: [width, height / 2],
  };
  const [x, y] = placeAt(wall.camera, ends[kind], 0);
  const halves: Record<EdgeKind, number> = {
    floor: y,
    below: (now.at[1] - size.heightMm / 2 + y) / 2,
    above: (now.at[1] + size.heightMm / 2 + y) / 2,
    left: (now.at[0] - size.widthMm / 2 + x) / 2,
    right: (now.at[0] + size.widthMm / 2 + x) / 2,
  };
  setEdge({ kind, atMm: Math.round(halves[kind]) });
}

function setEdge(edge: Edge): void {
  const others = (wallWork.peek()?.edges ?? []).filter(({ kind }) => kind !== edge.kind);
  changeWall({ edges: [...others, edge] });
}

export function dropEdge(kind: EdgeKind): void {
  changeWall({ edges: (wallWork.peek()?.edges ?? []).filter((edge) => edge.kind !== kind) });
}

function paintStroke(stroke: Stroke): void {
  changeWall({ strokes: [...(wallWork.peek()?.strokes ?? []), stroke] });
}

export function undoStroke(): void {
  changeWall({ strokes: (wallWork.peek()?.strokes ?? []).slice(0, -1) });
}

export const PHOTO_HANDS: PhotoHands = {
  moveCorner(reference, corner, to, done) {
    const corners = wallWork.peek()?.references[reference]?.corners;
    if (corners === undefined) return;
    const at = (number: number): Point => (number === corner ? to : (corners[number] ?? to));
    batch(() => {
      wallHeld.value = !done;
      changeReference(reference, { corners: [at(0), at(1), at(2), at(3)] });
    });
  },
  movePiece(to, done) {
    const [now, wall, [pieces]] = [wallWork.peek(), seenWall.peek(), wallPieces.peek()];
    batch(() => {
      wallHeld.value = !done;
      // The pointer leaves the photograph; the piece stays in it.
      if (now === undefined || wall === undefined || pieces === undefined) return;
      if (isSeen(wall.camera, to, hungSize(pieces), now.photo.px)) movePiece(to);
    });
  },
  moveEdge(kind, atMm) {
    setEdge({ kind, atMm: Math.round(atMm) });
  },
  paint: paintStroke,
  undoStroke,
};
