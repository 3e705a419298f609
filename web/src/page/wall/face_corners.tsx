// Handles at the corners of the face on the sheet: drawn outwards they enlarge the picture under the canvas.
import type { Crop, Layout } from "../../contract/types";
import { CORNERS, scaleCrop } from "../state/layout/crop";
import { cropGesture } from "../state/work/crop_edit";
import type { Placing } from "./placing";

interface FaceCornersProps {
  readonly placing: Placing;
  readonly layout: Layout;
  readonly crop: Crop;
  readonly offer: (crop: Crop) => void;
}

export function FaceCorners({ placing, layout, crop, offer }: FaceCornersProps) {
  const [, , left = 0, right = 0] = layout.flat.columns_mm;
  const [, , top = 0, bottom = 0] = layout.flat.rows_mm;
  return (
    <>
      {CORNERS.map((corner) => {
        const at = placing.point(corner.endsWith("left") ? left : right, corner.startsWith("top") ? top : bottom);
        const style = { left: `${at.x - placing.canvas.x}px`, top: `${at.y - placing.canvas.y}px` };
        return (
          <span key={corner} class="face-corner" style={style} onPointerDown={(event) => draw(event, crop, offer)} />
        );
      })}
    </>
  );
}

/** Scale by the pointer's distance from the canvas's middle, compared with its distance at the start. */
function draw(event: PointerEvent, crop: Crop, offer: (crop: Crop) => void): void {
  const handle = event.currentTarget;
  if (!(handle instanceof HTMLElement) || event.button !== 0) return;
  const box = handle.parentElement?.getBoundingClientRect();
  if (box === undefined) return;
  event.stopPropagation();
  event.preventDefault();
  const middle = { x: box.left + box.width / 2, y: box.top + box.height / 2 };
  const reach = (now: PointerEvent): number => Math.max(1, Math.hypot(now.clientX - middle.x, now.clientY - middle.y));
  const begun = reach(event);
  cropGesture.press();
  handle.setPointerCapture(event.pointerId);
  const follow = (now: PointerEvent): void => {
    now.stopPropagation();
    offer(scaleCrop(crop, begun / reach(now)));
  };
  const end = (): void => {
    cropGesture.release();
    handle.removeEventListener("pointermove", follow);
  };
  handle.addEventListener("pointermove", follow);
  handle.addEventListener("pointerup", end, { once: true });
  handle.addEventListener("pointercancel", end, { once: true });
}
