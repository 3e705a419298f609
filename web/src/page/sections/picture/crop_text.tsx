// What the crop leaves out, for people who do not see it: with the crop, and said when they have changed it.
import { useEffect, useState } from "preact/hooks";
import type { Crop } from "../../../contract/types";
import { say } from "../../../speech/on_page";
import { percentShown } from "../../../units";

/** So long nothing may have changed, so that keys that are held down say one thing. */
const CALM_MS = 700;

/** What changes the crop alone. Other controls say what they do themselves. */
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
  const [said, setSaid] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => {
      if (document.activeElement?.matches(CROP_CONTROLS)) setSaid(words);
    }, CALM_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <>
      <p id="crop-leaves-out" hidden>
        {words}
      </p>
      <p class="visually-hidden" role="status">
        {said}
      </p>
    </>
  );
}
