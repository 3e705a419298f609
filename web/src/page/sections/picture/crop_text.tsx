// What the crop leaves out, for people who do not see it: with the crop, and said when they have changed it.
import { CalmText } from "../../controls/calm_text";
import type { Crop } from "../../../contract/types";
import { say } from "../../../speech/on_page";
import { percentShown } from "../../../units";

/** What changes the crop alone. */
const CROP_CONTROLS = "#field-picture-crop, #crop-size, #sheet-crop";

/** What is left out at each edge, as a share of the picture's width or height. */
export function cropWords({ x, y, width, height }: Crop): string {
  return say(
    "The crop leaves out {left} at the left, {right} at the right, {top} at the top, {bottom} at the bottom.",
    {
      left: percentShown(x),
      right: percentShown(Math.max(0, 1 - x - width)),
      top: percentShown(y),
      bottom: percentShown(Math.max(0, 1 - y - height)),
    },
  );
}

export function CropText({ crop }: { readonly crop: Crop }) {
  const words = cropWords(crop);
  return (
    <>
      <p id="crop-leaves-out" hidden>
        {words}
      </p>
      <CalmText words={words} of={CROP_CONTROLS} />
    </>
  );
}
