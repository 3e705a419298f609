// Pixels on a canvas that nobody sees, and as a JPEG file.

export function canvasOf(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [width, height];
  return canvas;
}

/** A canvas with these pixels. */
export function canvasWith(image: ImageData): HTMLCanvasElement {
  const canvas = canvasOf(image.width, image.height);
  canvas.getContext("2d")?.putImageData(image, 0, 0);
  return canvas;
}

/** A JPEG file of a quality from 0 to 1; undefined where the browser makes none. */
export function jpegOf(canvas: HTMLCanvasElement, quality: number): Promise<Blob | undefined> {
  return new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? undefined), "image/jpeg", quality));
}
