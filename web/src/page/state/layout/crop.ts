// The window on the picture, in fractions of the turned picture. Its shape is given by the canvas and stays.
// Pure; every function gives a window that lies inside the picture.
import type { Crop } from "../../../contract/types";

export type Corner = "top-left" | "top-right" | "bottom-right" | "bottom-left";
export const CORNERS: readonly Corner[] = ["top-left", "top-right", "bottom-right", "bottom-left"];

/** The narrowest window: a fiftieth of what would fit. */
const SMALLEST = 0.02;

/** The largest window of a shape (width : height, in fractions), in the picture's middle. */
export function largestCrop(shape: number): Crop {
  const width = Math.min(1, shape);
  const height = Math.min(1, 1 / shape);
  return { x: (1 - width) / 2, y: (1 - height) / 2, width, height };
}

/** A window from the four numbers of a reply. */
export function cropOf([x, y, width, height]: readonly [number, number, number, number]): Crop {
  return { x, y, width, height };
}

/** Moved by fractions of the picture, as far as the picture goes. */
export function moveCrop(crop: Crop, across: number, down: number): Crop {
  return inside({ ...crop, x: crop.x + across, y: crop.y + down });
}

/** Scaled about a point, given as a fraction of the window: above 1 takes more of the picture. */
export function scaleCrop(crop: Crop, factor: number, about: { x: number; y: number } = { x: 0.5, y: 0.5 }): Crop {
  const most = largestCrop(crop.width / crop.height).width;
  const width = Math.min(most, Math.max(most * SMALLEST, crop.width * factor));
  const height = (width * crop.height) / crop.width;
  return inside({
    x: crop.x + (crop.width - width) * about.x,
    y: crop.y + (crop.height - height) * about.y,
    width,
    height,
  });
}

/** Drawn by one corner towards a point of the picture; the opposite corner stays. */
export function drawCorner(crop: Crop, corner: Corner, point: { x: number; y: number }): Crop {
  const right = corner.endsWith("right");
  const low = corner.startsWith("bottom");
  const fixed = { x: right ? crop.x : crop.x + crop.width, y: low ? crop.y : crop.y + crop.height };
  const shape = crop.width / crop.height;
  // The larger of the two pulls decides, the room left on that side of the fixed corner limits it.
  const pulled = Math.max(
    right ? point.x - fixed.x : fixed.x - point.x,
    (low ? point.y - fixed.y : fixed.y - point.y) * shape,
  );
  const room = Math.min(right ? 1 - fixed.x : fixed.x, (low ? 1 - fixed.y : fixed.y) * shape);
  const width = Math.min(room, Math.max(largestCrop(shape).width * SMALLEST, pulled));
  const height = width / shape;
  return inside({ x: right ? fixed.x : fixed.x - width, y: low ? fixed.y : fixed.y - height, width, height });
}

/** How large the window is, from 0 to 1, where 1 is the largest of its shape. */
export function cropSize(crop: Crop): number {
  return crop.width / largestCrop(crop.width / crop.height).width;
}

/** What a finger on the window leaves to the browser: with nothing to move up or down, it scrolls the page. */
export function leftToBrowser(crop: Crop): "pan-y pinch-zoom" | "pinch-zoom" {
  return crop.height > 0.999 ? "pan-y pinch-zoom" : "pinch-zoom";
}

/** A drag on the canvas as a step of the crop: the picture follows the pointer. */
export function cropStep(
  crop: Crop,
  dragged: { across_mm: number; down_mm: number },
  shown_mm: { width: number; height: number },
): { across: number; down: number } {
  return {
    across: (-dragged.across_mm / shown_mm.width) * crop.width,
    down: (-dragged.down_mm / shown_mm.height) * crop.height,
  };
}

function inside(crop: Crop): Crop {
  const width = Math.min(1, crop.width);
  const height = Math.min(1, crop.height);
  return { x: between(crop.x, 1 - width), y: between(crop.y, 1 - height), width, height };
}

function between(value: number, most: number): number {
  return Math.min(Math.max(0, most), Math.max(0, value));
}

/** How far an arrow key moves the window, as a fraction of the picture. */
const STEP = 0.005;
const LONG_STEP = 0.05;
const SCALE = 1.03;

/** The keys that a browser has for itself, as for its zoom, come with one of these. */
type CropKey = Pick<KeyboardEvent, "key" | "shiftKey"> & Partial<Pick<KeyboardEvent, "ctrlKey" | "metaKey" | "altKey">>;

/** The crop after a key of the keyboard; undefined is the largest centred crop. */
export function keyedCrop(crop: Crop, event: CropKey): Crop | undefined | "ignored" {
  if (event.ctrlKey === true || event.metaKey === true || event.altKey === true) return "ignored";
  const step = event.shiftKey ? LONG_STEP : STEP;
  switch (event.key) {
    case "ArrowLeft":
      return moveCrop(crop, -step, 0);
    case "ArrowRight":
      return moveCrop(crop, step, 0);
    case "ArrowUp":
      return moveCrop(crop, 0, -step);
    case "ArrowDown":
      return moveCrop(crop, 0, step);
    case "+":
    case "=":
      return scaleCrop(crop, 1 / SCALE);
    case "-":
      return scaleCrop(crop, SCALE);
    case "0":
      return undefined;
    default:
      return "ignored";
  }
}
