// Where the canvas lies on the drawing of the sheet: from mm on the canvas to pixels of the drawing. Pure.
import type { Layout } from "../../contract/types";
import type { SheetPlacement } from "../state/layout/sheet_shown";

export interface Placing {
  /** Pixels of the drawing for a millimetre. */
  readonly scale: number;
  /** The sheet, in pixels of the drawing. */
  readonly sheet: Rect;
  /** The canvas as it lies, in pixels of the drawing. */
  readonly canvas: Rect;
  readonly turned: boolean;
  /** A point of the canvas (mm from its upper-left corner, unturned) on the drawing. */
  readonly point: (x_mm: number, y_mm: number) => { x: number; y: number };
  /** A step on the drawing in mm of the unturned canvas. */
  readonly step: (x: number, y: number) => { across_mm: number; down_mm: number };
}

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One panel's canvas on the drawing. */
export interface PlacedPanel {
  /** From 1. */
  readonly panel: number;
  readonly placing: Placing;
}

/** Fit the sheet and the canvases on it into a drawing of a size, with room for the figures round them. */
export function place(
  { turned, length_mm, canvases }: SheetPlacement,
  canvas_mm: Layout["flat"]["canvas_mm"],
  sheetWidth_mm: number,
  drawing: { width: number; height: number },
  room: number,
): PlacedPanel[] {
  const [across, down] = canvas_mm;
  const [wide, high] = turned ? [down, across] : [across, down];
  const lefts = canvases.map(({ position_mm }) => position_mm[0]);
  const tops = canvases.map(({ position_mm }) => position_mm[1]);
  const from = { x: Math.min(0, ...lefts), y: Math.min(0, ...tops) };
  const to = {
    x: Math.max(sheetWidth_mm, ...lefts.map((left) => left + wide)),
    y: Math.max(length_mm, ...tops.map((top) => top + high)),
  };
  const scale = Math.max(
    0.01,
    Math.min((drawing.width - 2 * room) / (to.x - from.x), (drawing.height - 2 * room) / (to.y - from.y)),
  );
  const origin = {
    x: (drawing.width - scale * (from.x + to.x)) / 2,
    y: (drawing.height - scale * (from.y + to.y)) / 2,
  };
  const rect = (x: number, y: number, width: number, height: number): Rect => ({
    x: origin.x + x * scale,
    y: origin.y + y * scale,
    width: width * scale,
    height: height * scale,
  });
  const sheet = rect(0, 0, sheetWidth_mm, length_mm);
  return canvases.map(({ panel, position_mm: [left, top] }) => ({
    panel,
    placing: onDrawing(rect(left, top, wide, high), sheet, scale, turned),
  }));
}

function onDrawing(canvas: Rect, sheet: Rect, scale: number, turned: boolean): Placing {
  return {
    scale,
    sheet,
    canvas,
    turned,
    // Turned clockwise: the canvas's top is the right, its left is the top.
    point: (x, y) =>
      turned
        ? { x: canvas.x + canvas.width - y * scale, y: canvas.y + x * scale }
        : { x: canvas.x + x * scale, y: canvas.y + y * scale },
    step: (x, y) =>
      turned ? { across_mm: y / scale, down_mm: -x / scale } : { across_mm: x / scale, down_mm: y / scale },
  };
}

/** A canvas less wide than this has its lower handles too near to one another for a number, CSS pixels. */
const NARROW_PX = 64;

/** Where a panel's number stands, clear of the crop's handles: on the turn-over below the middle of the face. */
export function numberPlace({ canvas }: Placing): { x: number; y: number } {
  const below = canvas.width < NARROW_PX ? canvas.height / 2 + 5 : canvas.height - 8;
  return { x: canvas.x + canvas.width / 2, y: canvas.y + below };
}

/** Half of what a letter of a figure is wide, CSS pixels. */
const HALF_LETTER_PX = 4.75;

/** Where the middle of the height's figure stands: beside the canvas, but no higher than the drawing of the sheet. */
export function heightMiddle({ canvas, sheet }: Placing, letters: number): number {
  return Math.max(canvas.y + canvas.height / 2, Math.min(canvas.y, sheet.y) + letters * HALF_LETTER_PX);
}

/** What of a rectangle lies outside another, as up to four rectangles: left, right, above, below. */
export function outside(inner: Rect, outer: Rect): Rect[] {
  const right = { inner: inner.x + inner.width, outer: outer.x + outer.width };
  const low = { inner: inner.y + inner.height, outer: outer.y + outer.height };
  const middle = { x: Math.max(inner.x, outer.x), right: Math.min(right.inner, right.outer) };
  const rects = [
    { x: inner.x, y: inner.y, width: outer.x - inner.x, height: inner.height },
    { x: right.outer, y: inner.y, width: right.inner - right.outer, height: inner.height },
    { x: middle.x, y: inner.y, width: middle.right - middle.x, height: outer.y - inner.y },
    { x: middle.x, y: low.outer, width: middle.right - middle.x, height: low.inner - low.outer },
  ];
  return rects.filter((one) => one.width > 1e-6 && one.height > 1e-6);
}
