// Clipping: figures and labels, asked for while the user sees them, and the hue group that is highlighted.
import { computed, effect, signal } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import type { ClipReply, Job } from "../../../contract/types";
import type { StageLabels } from "../../../stage/types";
import { Query } from "../core/query";
import { clipKey } from "./keys";
import { mostOn } from "./pixels";
import { profilesKept } from "./profiles";
import { queryQueue, openWorkInCore } from "../core/queries";
import { colourSeen } from "./viewing";
import { getCore } from "../core/connection";
import { firstShown } from "../page/status";
import { scene, showPlace } from "../page/view";
import { NO_PICTURE } from "../work/pictures";
import { history, lacksPicture, shown } from "../work/work";

export interface Clipped {
  readonly reply: ClipReply;
  readonly labels: StageLabels;
}

export const clipQuery = new Query<Clipped>("clip", queryQueue);
/** The latest figures and labels; none of a canvas whose picture is not at hand. */
export const clipped = computed(() => (lacksPicture.value ? undefined : clipQuery.known.value?.value));

/** The name of the highlighted hue group, so that it stays highlighted when new figures come. */
const highlightedName = signal<string | undefined>(undefined);

/** The highlighted hue group, if there is still one of that name. */
export const highlighted = computed(() =>
  clipped.value?.reply.groups.find((group) => group.name === highlightedName.value),
);

/** Highlight a hue group and turn the view to where most of it is; the same name again ends it. */
export function toggleHighlight(name: string | undefined): void {
  highlightedName.value = name === highlightedName.value ? undefined : name;
  const [group, now, flat] = [highlighted.value, clipped.value, shown.value?.layout.flat];
  // The sheet shows every place at once.
  if (group === undefined || now === undefined || flat === undefined || scene.value === "sheet") return;
  showPlace(mostOn(now.labels, group.number, flat));
}

/** Ask from now on, while the figures are visible or a hue group is highlighted. */
export function startClipQueries(): void {
  effect(() => {
    const work = history.value?.present.state;
    if (work?.picture === NO_PICTURE) clipQuery.stop();
    if (work === undefined || work.picture === NO_PICTURE) return;
    if (shown.value === undefined || !firstShown.value) return;
    const { job } = work;
    const key = clipKey(job, { picture: work.picture, profiles: profilesKept.value });
    const isAsked = colourSeen.value || highlightedName.value !== undefined;
    if (isAsked) clipQuery.request(key, (stopped) => ask(job, stopped));
    // Figures of the job before are not those of this one, which the gamut map's words would take them for.
    else if (clipQuery.requested.peek() !== key) clipQuery.stop();
  });
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && highlightedName.value !== undefined) highlightedName.value = undefined;
  });
}

async function ask(job: Job, stopped: AbortSignal): Promise<Clipped> {
  await openWorkInCore(stopped);
  const { reply, buffers } = await getCore().call("clip", { job }, { signal: stopped });
  const [heightPx = 0, widthPx = 0] = reply.labels.shape;
  return { reply, labels: { labels: bytesOf(reply.labels, buffers), widthPx, heightPx } };
}
