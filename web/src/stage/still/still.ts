/** The sizes and the tiles of a still, and its PNG file. */

import { StageUnavailable } from "../types";

/** The largest still along either side, and the most pixels of one: what a browser's canvas holds everywhere. */
export const LARGEST_STILL_PX = 12000;
export const MOST_STILL_PX = 100_000_000;

/** Refuse a size that cannot be drawn; `mostPx` is the most along either side. */
export function checkStillSize(widthPx: number, heightPx: number, mostPx: number): void {
  for (const [name, size] of [
    ["width", widthPx],
    ["height", heightPx],
  ] as const) {
    if (!Number.isInteger(size) || size < 1 || size > mostPx) {
      throw new RangeError(`still ${name}: expected a whole number of pixels from 1 to ${mostPx}, got ${size}`);
    }
  }
  if (widthPx * heightPx > MOST_STILL_PX) {
    throw new RangeError(`still: expected at most ${MOST_STILL_PX} pixels in all, got ${widthPx * heightPx}`);
  }
}

/** A part of a picture that is drawn at once: from its top left corner, pixels. */
export interface Tile {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A picture cut into tiles of at most `mostPx` along either side, row by row. */
export function tiles(widthPx: number, heightPx: number, mostPx: number): readonly Tile[] {
  const out: Tile[] = [];
  for (let top = 0; top < heightPx; top += mostPx) {
    for (let left = 0; left < widthPx; left += mostPx) {
      out.push({ left, top, width: Math.min(mostPx, widthPx - left), height: Math.min(mostPx, heightPx - top) });
    }
  }
  return out;
}

/** Rows counted from the bottom, as the graphics processor gives them, turned to rows from the top. */
export function fromTheTop(pixels: Uint8Array, widthPx: number, heightPx: number): Uint8ClampedArray<ArrayBuffer> {
  const row = widthPx * 4;
  const out = new Uint8ClampedArray(row * heightPx);
  for (let y = 0; y < heightPx; y += 1) {
    out.set(pixels.subarray((heightPx - 1 - y) * row, (heightPx - y) * row), y * row);
  }
  return out;
}

/** A picture to draw into. */
export function paper(widthPx: number, heightPx: number): CanvasRenderingContext2D {
  const canvas = document.createElement("canvas");
  canvas.width = widthPx;
  canvas.height = heightPx;
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (context === null) throw new StageUnavailable("the browser has no room to draw it");
  return context;
}

/** What has been drawn, as a PNG. */
export function pngOf({ canvas }: CanvasRenderingContext2D): Promise<Blob> {
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob === null) reject(new Error("the browser could not save the PNG"));
      else resolve(blob);
    }, "image/png");
  });
}
