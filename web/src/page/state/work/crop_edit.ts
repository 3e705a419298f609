// Changing the window: the same for the small copy and for the sheet.
import type { Crop } from "../../../contract/types";
import { setCrop } from "./edit";
import { Gesture } from "./gesture";
import { propose } from "./run";

/** Movements of the window by hand; a drag is one step. */
export const cropGesture = new Gesture("picture.crop");

/** Offer a window, or the largest centred one. */
export function offerCrop(crop: Crop | undefined): Promise<void> {
  const group = crop === undefined ? {} : { group: cropGesture.group(performance.now()) };
  return propose({ field: "picture.crop", label: "the crop", change: setCrop(crop), ...group });
}
