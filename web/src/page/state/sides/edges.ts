// The core's judgement of the picture beside each edge, asked for after each change that is shown.
import { computed, effect } from "@preact/signals";
import type { EdgesReport, Job, SideReport } from "../../../contract/types";
import { Query } from "../core/query";
import { queryQueue } from "../core/queries";
import { edgesKey, currentNotes, moveCropOf, setSideFill } from "./edge_figures";
import { firstShown } from "../page/status";
import { fillWord } from "../page/names";
import { worstFirst } from "../page/notes";
import { NO_PICTURE } from "../work/pictures";
import { callAbout, proposeAndAnnounce } from "../work/run";
import { job, notes, shown, work } from "../work/work";
import { lowered, say } from "../../../speech/on_page";

interface EdgesAnswer {
  readonly picture: number;
  readonly job: Job;
  readonly reply: EdgesReport;
}

export const edgesQuery = new Query<EdgesAnswer>("edges", queryQueue);

/** The latest figures of the current picture; they stay until the next ones come. */
export const edges = computed(() => {
  const judged = edgesQuery.known.value?.value;
  return judged !== undefined && judged.picture === work.value?.picture ? judged.reply : undefined;
});

/** Everything for the margin, worst first. */
export const marginNotes = computed(() => {
  const [reply, now] = [edges.value, job.value];
  return worstFirst([...notes.value, ...(reply && now ? currentNotes(reply, now) : [])]);
});

/** Ask from now on. */
export function startEdgeQueries(): void {
  effect(() => {
    const now = work.value;
    if (now?.picture === NO_PICTURE) edgesQuery.stop();
    if (now === undefined || now.picture === NO_PICTURE) return;
    if (shown.value === undefined || !firstShown.value) return;
    edgesQuery.request(edgesKey(now.job, now.picture), (signal) => ask(now.job, now.picture, signal));
  });
  // Tests read this from outside.
  effect(() => {
    document.documentElement.dataset["edges"] = edgesQuery.pending.value ? "asking" : "known";
  });
}

async function ask(asked: Job, picture: number, signal: AbortSignal): Promise<EdgesAnswer> {
  const { reply } = await callAbout(picture, "edges", { job: asked }, { signal });
  return { picture, job: asked, reply };
}

/** Give a side the fill that suits it better: one step, which undo takes back. */
export async function applyBetterFill({ side, better }: SideReport): Promise<void> {
  if (better === undefined) return;
  const edit = {
    field: `sides.${side}.fill`,
    label: say("the {side} side", { side }),
    change: setSideFill(side, better),
  };
  await proposeAndAnnounce(
    edit,
    say("The {side} side has a new fill: {fillWord}.", { side, fillWord: lowered(fillWord(better)) }),
  );
}

/** Whether the figures are those of the job in hand; while they are not, a move of the crop may lead elsewhere. */
export const edgesHold = computed(() => edgesQuery.fresh.value !== undefined);

/** Move the crop so that a side's edge cuts nothing: one step, which undo takes back. */
export async function applyCropMove({ side, move }: SideReport): Promise<void> {
  const judged = edgesQuery.fresh.peek();
  if (move === undefined || judged === undefined) return;
  const moved = moveCropOf(judged.job, move.crop);
  let holds = true;
  const change = (now: Job): Job => {
    // A change that waited before it comes first.
    const next = moved(now);
    holds = next !== now;
    return next;
  };
  await proposeAndAnnounce({ field: "picture.crop", label: say("the crop"), change }, () =>
    holds
      ? say("The crop is moved, so that the {side} edge cuts nothing.", { side })
      : say("The crop was not moved, since the job has changed meanwhile."),
  );
}
