// The largest face that the loaded sheet or roll holds: proposed for a first picture, and offered beside the sizes.
import { computed, effect } from "@preact/signals";
import type { Job, LargestFace } from "../../../contract/types";
import { queryQueue } from "../core/queries";
import { Query } from "../core/query";
import { firstShown } from "../page/status";
import { unit } from "../page/settings";
import { setCrop, setFace } from "../work/edit";
import { callAbout, propose } from "../work/run";
import { shown, work } from "../work/work";
import { say } from "../../../speech/on_page";

interface Answer {
  readonly face?: LargestFace;
}

const largestFaceQuery = new Query<Answer>("largest face", queryQueue);

/** The largest face of the picture's shape; undefined until it is known. */
export const largestFace = computed(() => largestFaceQuery.fresh.value);

/** Ask from now on, after each change that matters. */
export function startLargestFaceQueries(): void {
  effect(() => {
    const [now, inUnit] = [work.value, unit.value];
    if (now === undefined || shown.value === undefined || !firstShown.value) return;
    const { bars, group, wrap, sides, sheet, canvas } = now.job;
    const key = JSON.stringify([now.picture, inUnit, now.job.picture.turn, bars, group, wrap, sides, sheet, canvas]);
    const params = { job: now.job, unit: inUnit };
    largestFaceQuery.request(
      key,
      async (signal) => (await callAbout(now.picture, "propose_face", params, { signal })).reply,
    );
  });
}

/** Take the largest face; the crop is dropped. */
export function takeLargestFace({ width_mm, height_mm }: LargestFace): void {
  const change = (job: Job): Job => setFace({ width_mm, height_mm })(setCrop(undefined)(job));
  void propose({ field: "face.width_mm", label: say("the largest face"), change });
}
