// What hangs on the wall: the work in hand, as one piece or a group of panels, or the variants beside each other.
import { computed } from "@preact/signals";
import type { Job } from "../../contract/types";
import type { StagePane } from "../../stage/types";
import { comparison } from "../state/comparison";
import { sizesOf } from "../state/piece_sizes";
import { job, type Shown, shown } from "../state/work";

/** The pane of a job as it is shown; none before its first canvas has come. */
export function paneOf(now: Job, { fold, texture, panels }: Shown): StagePane | undefined {
  if (fold === undefined || texture === undefined) return undefined;
  const sizes = sizesOf(now);
  return {
    pieces: panels.map(({ centre_mm, top_px, bottom_px }) => ({
      fold,
      texture,
      sizes,
      rows: { topPx: top_px, bottomPx: bottom_px },
      centreMm: centre_mm,
    })),
  };
}

const own = computed(() => {
  const [now, on] = [job.value, shown.value];
  return now === undefined || on === undefined ? undefined : paneOf(now, on);
});

/** The panes on the wall; nothing before the first canvas has come. */
export const wallPanes = computed<readonly StagePane[] | undefined>(
  () => comparison.value ?? (own.value === undefined ? undefined : [own.value]),
);
