// The tables that turn the picture's colours into the screen's: asked for after the first canvas is shown, and
// again when what they depend on changes. With them, going from view to view asks nothing.
import { computed, effect, signal } from "@preact/signals";
import type { Job, Viewing } from "../../../contract/types";
import type { Look } from "../../../stage/types";
import { Query } from "../core/query";
import { lookKey } from "./keys";
import { profilesKept } from "./profiles";
import { queryQueue, openWorkInCore } from "../core/queries";
import { colourSeen, colourView, DRAWN_TO, viewing, showsUnadjusted } from "./viewing";
import { getCore } from "../core/connection";
import { NO_PICTURE } from "../work/pictures";
import { setColour } from "../work/edit";
import { firstShown } from "../page/status";
import { lookOf } from "../work/receive";
import { history, picture, shown } from "../work/work";

/** A look and the picture whose space it is for. */
interface PictureLook {
  readonly picture: number;
  readonly look: Look;
}

export const lookQuery = new Query<PictureLook>("look", queryQueue);
/** The look without bringing in, while the job brings colours in. */
export const unadjustedLookQuery = new Query<PictureLook>("look without bringing in", queryQueue);

/**
 * The look with a table as fine as the print file's, while the job brings colours in: that begins where the gamut
 * ends. A coarser one comes first, and the figures, which this one shares work with.
 */
export const fineLookQuery = new Query<PictureLook>("fine look", queryQueue);

const withoutBringIn = setColour({ bring_in: 0 });

/** Whether the print without bringing in can be shown. */
export const hasUnadjustedLook = computed(() => unadjustedLookQuery.fresh.value !== undefined);

/** Without tables for the current work only the picture as filed can be shown. */
export const drawnView = computed(() => (lookQuery.failure.value === undefined ? colourView.value : "filed"));

/** The look that the stage draws with. */
export const look = computed<Look | undefined>(() => {
  const other = showsUnadjusted.value ? unadjustedLookQuery.fresh.value : undefined;
  const [coarse, fine] = [lookQuery.known.value, fineLookQuery.known.value];
  const now = other ?? (fine?.key === coarse?.key ? fine : coarse)?.value;
  if (now === undefined || now.picture === picture.value?.id) return now?.look;
  // Another picture came, perhaps in another space: until its own tables come, as filed is as it came.
  const { filed: _former, ...rest } = now.look;
  return rest;
});

/** After a start the core stays free for the first changes; after that the tables are asked for in any case. */
const SETTLING_MS = 1500;
const settledIn = signal(false);

/** Ask for looks from now on, when they are needed. */
export function startLookQueries(): void {
  effect(() => {
    if (firstShown.value) setTimeout(() => (settledIn.value = true), SETTLING_MS);
  });
  effect(() => {
    const work = history.value?.present.state;
    const on = shown.value;
    // Where the screen needs the tables to show the picture as filed, it cannot wait.
    const urgent = on?.pictureEncoded ?? false;
    const wanted = firstShown.value && (settledIn.value || colourSeen.value || colourView.value !== "filed");
    if (work?.picture === NO_PICTURE) {
      lookQuery.stop();
      fineLookQuery.stop();
      unadjustedLookQuery.stop();
    }
    if (work === undefined || work.picture === NO_PICTURE || on === undefined || !(urgent || wanted)) return;
    const around = { picture: work.picture, profiles: profilesKept.value };
    const seen = viewing.value;
    const without = withoutBringIn(work.job);
    const key = lookKey(work.job, around, seen, DRAWN_TO);
    const brings = work.job.colour.bring_in > 0;
    lookQuery.request(key, ask(work.job, work.picture, seen), urgent);
    if (brings) unadjustedLookQuery.request(lookKey(without, around, seen, DRAWN_TO), ask(without, work.picture, seen));
    else unadjustedLookQuery.stop();
    const follows = brings && lookQuery.fresh.value !== undefined;
    if (follows) fineLookQuery.request(key, ask(work.job, work.picture, seen, { fine: true }));
    else fineLookQuery.stop();
  });
}

function ask(job: Job, of: number, seen: Viewing, { fine = false } = {}) {
  return async (stopped: AbortSignal): Promise<PictureLook> => {
    await openWorkInCore(stopped);
    const { reply, buffers } = await getCore().call(
      "look",
      { job, viewing: seen, screen: DRAWN_TO, fine },
      { signal: stopped },
    );
    return { picture: of, look: lookOf(reply, buffers) };
  };
}
