// What clips, where, and by how much: worked out while somebody looks at it; and the group that is lit up.
import { computed, effect, signal } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import type { ClipReply, Job } from "../../../contract/types";
import type { StageLabels } from "../../../stage/types";
import { Asked } from "../core/query";
import { clipKey } from "./keys";
import { mostOn } from "./pixels";
import { profilesKept } from "./profiles";
import { lane, openBoth } from "../core/queries";
import { colourSeen } from "./viewing";
import { theCore } from "../core/connection";
import { firstShown } from "../page/status";
import { scene, showPlace } from "../page/view";
import { history, shown } from "../work/work";

export interface Clipped {
  readonly reply: ClipReply;
  readonly labels: StageLabels;
}

export const askedClip = new Asked<Clipped>("clip", lane);
export const clipped = computed(() => askedClip.known.value?.value);

/** The name of the group that is lit up, so that it stays lit when the figures come anew. */
const litName = signal<string | undefined>(undefined);

/** The group that is lit up, if there is still one of that name. */
export const lit = computed(() => clipped.value?.reply.groups.find((group) => group.name === litName.value));

/** Light a group up and turn the view to where most of it is; a second time puts it out. */
export function lightUp(name: string | undefined): void {
  litName.value = name === litName.value ? undefined : name;
  const [group, now, flat] = [lit.value, clipped.value, shown.value?.layout.flat];
  // The sheet shows every place at once.
  if (group === undefined || now === undefined || flat === undefined || scene.value === "sheet") return;
  showPlace(mostOn(now.labels, group.number, flat));
}

/** Ask from now on, while the figures are seen or a group is lit up. */
export function keepClip(): void {
  effect(() => {
    const work = history.value?.present.state;
    if (work === undefined || shown.value === undefined || !firstShown.value) return;
    if (!colourSeen.value && litName.value === undefined) return;
    const { job } = work;
    askedClip.want(clipKey(job, { picture: work.picture, profiles: profilesKept.value }), (signal) => ask(job, signal));
  });
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && litName.value !== undefined) litName.value = undefined;
  });
}

async function ask(job: Job, signal: AbortSignal): Promise<Clipped> {
  await openBoth();
  const { reply, buffers } = await theCore().call("clip", { job }, { signal });
  const [heightPx = 0, widthPx = 0] = reply.labels.shape;
  return { reply, labels: { labels: bytesOf(reply.labels, buffers), widthPx, heightPx } };
}
