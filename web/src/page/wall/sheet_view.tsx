// The sheet or roll with the canvas on it, flat: where it is folded and cut, and what does not fit. Here the
// picture is moved and scaled under the canvas.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { markShown } from "../state/marks";
import { wallState } from "../state/view";
import { job, shown } from "../state/work";
import { CropHandles } from "./crop_handles";
import { FlatTexture } from "./flat_texture";
import { place } from "./placing";
import { SheetLines } from "./sheet_lines";

/** Room round the drawing for its figures, in CSS pixels: less where there is little. */
function room({ width, height }: { width: number; height: number }): number {
  return Math.min(44, Math.max(26, 0.07 * Math.min(width, height)));
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
  }, []);
  const now = job.value;
  const on = shown.value;
  const ready = now !== undefined && on?.texture !== undefined && size.value.width > 0;
  useEffect(() => {
    if (ready) markShown();
  }, [ready]);
  const placing = ready ? place(on.layout, now.sheet.width_mm, size.value, room(size.value)) : undefined;
  return (
    <div class="sheet-view">
      {wallState.value === "none" && (
        <p class="no-wall" role="status">
          This browser cannot draw the wall: WebGL 2 is missing or switched off. The flat sheet and every file work as
          ever.
        </p>
      )}
      <div class="sheet-drawing" ref={host}>
        {placing !== undefined && on?.texture !== undefined && now !== undefined && (
          <>
            <SheetLines placing={placing} layout={on.layout} job={now} fold={on.fold} size={size.value} under />
            <FlatTexture texture={on.texture} placing={placing} />
            <SheetLines placing={placing} layout={on.layout} job={now} fold={on.fold} size={size.value} />
            <CropHandles placing={placing} layout={on.layout} />
          </>
        )}
      </div>
    </div>
  );
}
