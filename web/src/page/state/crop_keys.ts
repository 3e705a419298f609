// The keys that move and scale the window on the picture. Pure.
import type { Crop } from "../../contract/types";
import { moveCrop, scaleCrop } from "./crop";

/** How far an arrow key moves the window, as a fraction of the picture. */
const STEP = 0.005;
const LONG_STEP = 0.05;
const SCALE = 1.03;

/** The window after a key; nothing stands for the largest centred one. */
export function keyedCrop(crop: Crop, event: Pick<KeyboardEvent, "key" | "shiftKey">): Crop | undefined | "ignored" {
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
