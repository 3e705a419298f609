// A wall as text beside its photograph, and back: nothing of what comes back is trusted. Pure.
import type { Edge, EdgeKind } from "../../../photo/placing";
import type { Corners, Point } from "../../../photo/plane";
import type { Stroke } from "../../../photo/strokes";
import type { MarkedReference } from "./reference_size";
import type { WallWork } from "./wall_work";

/** What is marked on a photograph, as text to be kept beside it. */
export function wallText({ photo: { px, focalPx }, ...marks }: WallWork): string {
  return JSON.stringify({ px, focalPx, ...marks });
}

/** The wall of a kept photograph, or nothing where its text is not whole. */
export function asWall(part: {
  readonly name: string;
  readonly blob: Blob;
  readonly data?: string;
}): WallWork | undefined {
  const found = fieldsOf(parsed(part.data));
  const [px, focalPx, at] = [asPoint(found.get("px")), found.get("focalPx"), asPoint(found.get("at"))];
  const references = listOf(found.get("references"), asReference);
  const edges = listOf(found.get("edges"), asEdge);
  const strokes = listOf(found.get("strokes"), asStroke);
  const [roomLight, shadow] = [asShare(found.get("roomLight")), asShare(found.get("shadow"))];
  if (px === undefined || at === undefined || references === undefined || references.length === 0) return undefined;
  if (edges === undefined || strokes === undefined || roomLight === undefined || shadow === undefined) return undefined;
  const lens = typeof focalPx === "number" && focalPx > 0 ? { focalPx } : {};
  const photo = { name: part.name, blob: part.blob, px, ...lens };
  return { photo, references, at, edges, strokes, roomLight, shadow, proofColours: found.get("proofColours") === true };
}

function parsed(text: string | undefined): unknown {
  if (text === undefined) return undefined;
  try {
    return JSON.parse(text);
  } catch (failure) {
    if (failure instanceof SyntaxError) return undefined;
    throw failure;
  }
}

function asReference(stored: unknown): MarkedReference | undefined {
  const found = fieldsOf(stored);
  const size = found.get("size");
  if (typeof size !== "string") return undefined;
  const corners = found.has("corners") ? asCorners(found.get("corners")) : undefined;
  return { size, ...(corners === undefined ? {} : { corners }) };
}

function asCorners(stored: unknown): Corners | undefined {
  const [a, b, c, d, ...more] = listOf(stored, asPoint) ?? [];
  if (a === undefined || b === undefined || c === undefined || d === undefined || more.length > 0) return undefined;
  return [a, b, c, d];
}

const KINDS: readonly EdgeKind[] = ["floor", "below", "above", "left", "right"];

function asEdge(stored: unknown): Edge | undefined {
  const found = fieldsOf(stored);
  const [kind, atMm] = [KINDS.find((one) => one === found.get("kind")), found.get("atMm")];
  return kind === undefined || typeof atMm !== "number" ? undefined : { kind, atMm };
}

function asStroke(stored: unknown): Stroke | undefined {
  const found = fieldsOf(stored);
  const [radiusPx, points] = [found.get("radiusPx"), listOf(found.get("points"), asPoint)];
  if (typeof radiusPx !== "number" || points === undefined) return undefined;
  return { radiusPx, points, clears: found.get("clears") === true };
}

function asPoint(stored: unknown): Point | undefined {
  if (!Array.isArray(stored) || stored.length !== 2) return undefined;
  const both: readonly unknown[] = stored;
  const [x, y] = both;
  return typeof x === "number" && typeof y === "number" && Number.isFinite(x) && Number.isFinite(y)
    ? [x, y]
    : undefined;
}

function asShare(stored: unknown): number | undefined {
  return typeof stored === "number" && stored >= 0 && stored <= 1 ? stored : undefined;
}

/** A list of which every entry is whole. */
function listOf<T>(stored: unknown, as: (one: unknown) => T | undefined): readonly T[] | undefined {
  if (!Array.isArray(stored)) return undefined;
  const found = stored.flatMap((one: unknown) => {
    const read = as(one);
    return read === undefined ? [] : [read];
  });
  return found.length === stored.length ? found : undefined;
}

function fieldsOf(stored: unknown): ReadonlyMap<string, unknown> {
  return new Map(typeof stored === "object" && stored !== null ? Object.entries(stored) : []);
}
