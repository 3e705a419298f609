/** A round magnifier of the photograph beside what is being moved, with the exact place in its middle. */
import type { Point } from "./plane";

/** Of its canvas; on a small photograph it is shown smaller, so that the other corners stay in sight. */
const SIZE_PX = 150;
const SHARE = 0.4;
/** Pixels of the magnifier for one of the photograph. */
const ZOOM = 6;

export class Magnifier {
  readonly element = document.createElement("canvas");

  constructor() {
    this.element.width = SIZE_PX;
    this.element.height = SIZE_PX;
    this.element.hidden = true;
    this.element.setAttribute("aria-hidden", "true");
    this.element.style.cssText =
      `position:absolute;inline-size:${SIZE_PX}px;block-size:${SIZE_PX}px;border-radius:50%;` +
      "border:2px solid var(--paper);box-shadow:0 0 0 1px var(--ink);pointer-events:none;z-index:3;background:#000";
  }

  /** Show a place of the photograph; the magnifier stands in the corner of a frame that is farthest from it. */
  show(image: CanvasImageSource, [x, y]: Point, photo: Point, frame: Point): void {
    const context = this.element.getContext("2d");
    if (context === null) return;
    const half = SIZE_PX / (2 * ZOOM);
    context.imageSmoothingEnabled = false;
    context.fillStyle = "#000";
    context.fillRect(0, 0, SIZE_PX, SIZE_PX);
    context.drawImage(image, x - half, y - half, 2 * half, 2 * half, 0, 0, SIZE_PX, SIZE_PX);
    for (const [width, colour] of [
      [3, "#fff"],
      [1, "#000"],
    ] as const) {
      context.lineWidth = width;
      context.strokeStyle = colour;
      context.beginPath();
      for (const [from, to] of [
        [0.3, 0.47],
        [0.53, 0.7],
      ] as const) {
        context.moveTo(SIZE_PX * from, SIZE_PX / 2);
        context.lineTo(SIZE_PX * to, SIZE_PX / 2);
        context.moveTo(SIZE_PX / 2, SIZE_PX * from);
        context.lineTo(SIZE_PX / 2, SIZE_PX * to);
      }
      context.stroke();
    }
    const shown = Math.min(SIZE_PX, SHARE * frame[0], SHARE * frame[1]);
    const { style } = this.element;
    style.inlineSize = `${shown}px`;
    style.blockSize = `${shown}px`;
    style.left = x < photo[0] / 2 ? `${Math.max(0, frame[0] - shown - 8)}px` : "8px";
    style.top = y < photo[1] / 2 ? `${Math.max(0, frame[1] - shown - 8)}px` : "8px";
    this.element.hidden = false;
  }

  hide(): void {
    this.element.hidden = true;
  }
}
