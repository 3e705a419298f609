// What hangs on the wall: the work in hand, as one piece or a group of panels, or the variants beside each other.
import { computed } from "@preact/signals";
import type { Job } from "../../contract/types";
import type { StagePane } from "../../stage/types";
import { comparison } from "../state/comparison";
import { piecesOf } from "../state/pieces";
import { job, type Shown, shown } from "../state/work";

/** The pane of a job as it is shown; none before its first canvas has come. */
export function paneOf(now: Job, { fold, texture, panels }: Shown): StagePane | undefined {
  if (fold === undefined || texture === undefined) return undefined;
  return { pieces: piecesOf(now, panels, { fold, texture }) };
}

const own = computed(() => {
  const [now, on] = [job.value, shown.value];
  return now === undefined || on === undefined ? undefined : paneOf(now, on);
});

/** The panes on the wall; nothing before the first canvas has come. */
export const wallPanes = computed<readonly StagePane[] | undefined>(
  () => comparison.value ?? (own.value === undefined ? undefined : [own.value]),
);
