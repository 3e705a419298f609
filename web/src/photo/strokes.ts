/** What is painted in front of the piece: strokes of a brush, kept as lines, drawn as an opaque mask. */
import type { Point } from "./plane";

/** One stroke, in pixels of the photograph. */
export interface Stroke {
  readonly radiusPx: number;
  readonly points: readonly Point[];
  /** Takes away what earlier strokes have painted. */
  readonly clears: boolean;
}

/** No more pixels along a side of the mask that is drawn with; edges of things are soft anyway. */
const MOST_PX = 2048;

/** A canvas with the photograph's shape for masks. */
export function maskCanvas([width, height]: Point, mostPx = MOST_PX): HTMLCanvasElement {
  const scale = Math.min(1, mostPx / Math.max(width, height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  return canvas;
}

/** Draw strokes, opaque where something stands in front. */
export function drawStrokes(canvas: HTMLCanvasElement, strokes: readonly Stroke[], photoWidthPx: number): void {
  const context = canvas.getContext("2d");
  if (context === null) return;
  const scale = canvas.width / photoWidthPx;
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.lineCap = "round";
  context.lineJoin = "round";
  for (const { radiusPx, points, clears } of strokes) {
    const [first] = points;
    if (first === undefined) continue;
    context.globalCompositeOperation = clears ? "destination-out" : "source-over";
    context.lineWidth = Math.max(0.5, 2 * radiusPx * scale);
    context.strokeStyle = "#fff";
    context.beginPath();
    context.moveTo(first[0] * scale, first[1] * scale);
    // A single spot is a line of no length, which round ends make a disc.
    for (const [x, y] of points.length === 1 ? [first] : points.slice(1)) context.lineTo(x * scale, y * scale);
    context.stroke();
  }
  context.globalCompositeOperation = "source-over";
}

/** A PNG of the photograph's size, white on black, for the core. */
export function maskFile(strokes: readonly Stroke[], photo: Point): Promise<Blob> {
  const canvas = maskCanvas(photo, Infinity);
  drawStrokes(canvas, strokes, photo[0]);
  const context = canvas.getContext("2d");
  if (context !== null) {
    context.globalCompositeOperation = "destination-over";
    context.fillStyle = "#000";
    context.fillRect(0, 0, canvas.width, canvas.height);
  }
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob === null) reject(new Error("the browser could not save the mask"));
      else resolve(blob);
    }, "image/png");
  });
}
