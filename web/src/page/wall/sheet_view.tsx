// The sheet or roll with the canvas on it, flat: where it is folded and cut, and what does not fit. Here the
// picture is moved and scaled under the canvas.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Job, Layout } from "../../contract/types";
import { markShown } from "../state/page/status";
import { sheetPlacement, sheetShown } from "../state/layout/sheet_shown";
import { wallState } from "../state/page/view";
import { isFixed } from "../state/work/fixed";
import { job, shown } from "../state/work/work";
import { CropHandles } from "./crop_handles";
import { FlatTexture } from "./flat_texture";
import { place } from "./placing";
import { SheetLines } from "./sheet_lines";
import { say } from "../../speech/on_page";

/** Room round the drawing for its figures, in CSS pixels: less where there is little. */
function room({ width, height }: { width: number; height: number }): number {
  return Math.min(44, Math.max(26, 0.07 * Math.min(width, height)));
}

/** The canvases of the sheet that is looked at, on the drawing. */
function onSheet(layout: Layout, now: Job, size: { width: number; height: number }) {
  const lies = sheetPlacement(layout, sheetShown.value);
  return place(lies, layout.flat.canvas_mm, now.sheet.width_mm, size, room(size));
}

export function SheetView() {
  const host = useRef<HTMLDivElement>(null);
  const size = useSignal({ width: 0, height: 0 });
  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) size.value = { width: entry.contentRect.width, height: entry.contentRect.height };
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [size]);
  const now = job.value;
  const on = shown.value;
  const ready = now !== undefined && on?.texture !== undefined && size.value.width > 0;
  useEffect(() => {
    if (ready) markShown();
  }, [ready]);
  const placed = ready ? onSheet(on.layout, now, size.value) : [];
  return (
    <div class="sheet-view">
      {wallState.value === "none" && (
        <p class="no-wall" role="status">
          {say(
            "This browser cannot draw the wall: WebGL 2 is missing or switched off. The flat sheet and every file work.",
          )}
        </p>
      )}
      <div class="sheet-drawing" ref={host}>
        {on?.texture !== undefined && now !== undefined && (
          <>
            <SheetLines placed={placed} layout={on.layout} job={now} fold={on.fold} size={size.value} under />
            <FlatTexture texture={on.texture} placed={placed} panels={on.panels} />
            <SheetLines placed={placed} layout={on.layout} job={now} fold={on.fold} size={size.value} />
            {!isFixed("picture.crop") &&
              placed.map(({ panel, placing }, index) => (
                <CropHandles key={panel} placing={placing} layout={on.layout} job={now} first={index === 0} />
              ))}
          </>
        )}
      </div>
    </div>
  );
}
