// Changes of the crop, as the picture's small copy and the sheet both make them.
import type { Crop } from "../../../contract/types";
import { type Edit, setCrop } from "./edit";
import { Gesture } from "./gesture";
import { propose } from "./run";
import { say } from "../../../speech/on_page";

/** The gesture of the crop: a drag is one step of undo. */
export const cropGesture = new Gesture("picture.crop");

/** Propose a crop, or the largest centred one. */
export function offerCrop(crop: Crop | undefined): Promise<void> {
  const gesture = crop === undefined ? undefined : cropGesture.changeId(performance.now());
  const edit: Edit = { field: "picture.crop", label: say("the crop"), change: setCrop(crop) };
  return propose(gesture === undefined ? edit : { ...edit, gesture });
}
