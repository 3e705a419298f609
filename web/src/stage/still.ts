/** A picture of the stage as a PNG file. */

/** Refuse a size that cannot be drawn; `mostPx` is the most along either side. */
export function checkStillSize(widthPx: number, heightPx: number, mostPx: number): void {
  for (const [name, size] of [["width", widthPx], ["height", heightPx]] as const) {
    if (!Number.isInteger(size) || size < 1 || size > mostPx) {
      throw new RangeError(`still ${name}: expected a whole number of pixels from 1 to ${mostPx}, got ${size}`);
    }
  }
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

/** RGBA pixels, rows from the top, as a PNG. */
export function pngOf(pixels: Uint8ClampedArray<ArrayBuffer>, widthPx: number, heightPx: number): Promise<Blob> {
  const canvas = document.createElement("canvas");
  canvas.width = widthPx;
  canvas.height = heightPx;
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("still: the browser gave no canvas to draw on");
  context.putImageData(new ImageData(pixels, widthPx, heightPx), 0, 0);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob === null) reject(new Error("still: the browser could not write the PNG"));
      else resolve(blob);
    }, "image/png");
  });
}
