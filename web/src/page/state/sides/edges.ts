// What the picture holds beside each arris: asked quietly after each change that is shown.
import { computed, effect } from "@preact/signals";
import type { EdgesReply, Job, SideFigures } from "../../../contract/types";
import { Asked } from "../core/query";
import { lane } from "../core/queries";
import { theCore } from "../core/connection";
import { edgesKey, stillHolding, takeFill } from "./edge_figures";
import { firstShown } from "../page/status";
import { fillWord } from "../page/names";
import { worstFirst } from "../page/notes";
import { openInCore, proposeAloud } from "../work/run";
import { job, notes, shown, work } from "../work/work";

interface Judged {
  readonly picture: number;
  readonly reply: EdgesReply;
}

export const askedEdges = new Asked<Judged>("edges", lane);

/** The latest figures of the picture in hand; they stay until the next ones come. */
export const edges = computed(() => {
  const judged = askedEdges.known.value?.value;
  return judged !== undefined && judged.picture === work.value?.picture ? judged.reply : undefined;
});

/** Everything for the margin, worst first. */
export const marginNotes = computed(() => {
  const [reply, now] = [edges.value, job.value];
  return worstFirst([...notes.value, ...(reply && now ? stillHolding(reply, now) : [])]);
});

/** Ask from now on. */
export function keepEdges(): void {
  effect(() => {
    const now = work.value;
    if (now === undefined || shown.value === undefined || !firstShown.value) return;
    askedEdges.want(edgesKey(now.job, now.picture), (signal) => ask(now.job, now.picture, signal));
  });
  // For whoever watches the page from outside.
  effect(() => {
    document.documentElement.dataset["edges"] = askedEdges.pending.value ? "asking" : "known";
  });
}

async function ask(asked: Job, picture: number, signal: AbortSignal): Promise<Judged> {
  await openInCore(picture);
  const { reply } = await theCore().call("edges", { job: asked }, { signal });
  return { picture, reply };
}

/** Give a side the fill that suits it better: one step, which undo takes back. */
export async function takeBetter({ side, better }: SideFigures): Promise<void> {
  if (better === undefined) return;
  const edit = { field: `sides.${side}.fill`, label: `the ${side} side`, change: takeFill(side, better) };
  await proposeAloud(edit, `${fillWord(better)} on the ${side} side.`);
}
