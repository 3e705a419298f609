// Variants side by side on the wall, or none, and then the current work hangs there alone. They follow the job:
// after each change of it the same things are compared again.
import { batch, computed, effect, signal } from "@preact/signals";
import type { Job, Progress, Variant, VariantReply } from "../../../contract/types";
import type { StagePane } from "../../../stage/types";
import { ILLUSTRATIVE, profileReplies, openProfileInCore, profilesKept } from "../colour/profiles";
import { queryQueue } from "../core/queries";
import { DRAWN_TO, viewing } from "../colour/viewing";
import { ILLUSTRATIVE_NAME } from "../colour/words";
import { type Choice, choicesOf, comparisonKey, countWrong, KINDS, listed, type Plan } from "./plan";
import { panesOf } from "../work/receive";
import { failureText, type FieldError } from "../page/fields";
import { NO_PICTURE } from "../work/pictures";
import { callAbout, proposeAndAnnounce } from "../work/run";
import { unit } from "../page/settings";
import { closeAnnouncement } from "../page/status";
import { scene, wallState } from "../page/view";
import { job, shown, waiting, work } from "../work/work";
import { say } from "../../../speech/on_page";

/** Variants as the core has made them. */
export interface Compared {
  readonly key: string;
  readonly plan: Plan;
  readonly variants: readonly VariantReply[];
  readonly panes: readonly StagePane[];
}

const QUERY_KIND = "compare";

/** The plan of the comparison that was asked for. */
export const plan = signal<Plan | undefined>(undefined);
/** The comparison on the wall; no other is kept. */
export const compared = signal<Compared | undefined>(undefined);
export const comparing = signal<Progress | undefined>(undefined);
export const refused = signal<FieldError | undefined>(undefined);
const wanted = signal<string | undefined>(undefined);
/** Set when the user asks for a comparison, so that it is not put off. */
let byHand = false;

/** The panes that replace the current work on the wall. */
export const comparison = computed<readonly StagePane[] | undefined>(() => compared.value?.panes);

/** Whether the wall shows the job as it was before its latest change. */
export const outdated = computed(() => compared.value !== undefined && compared.value.key !== wanted.value);

/** The variants on the wall by name. */
export const choices = computed<readonly Choice[]>(() => {
  const now = compared.value;
  return now === undefined ? [] : choicesOf(now.plan, unit.value, profileName);
});

/** The variants on the wall as jobs, for other outputs. */
export const variantsOnStage = computed<readonly Variant[]>(() => {
  const [now, on] = [job.value, choices.value];
  return now === undefined ? [] : on.map(({ label, change }) => ({ label, job: change(now) }));
});

/** A profile's name: its description where it is open, else its file name. */
export function profileName(file: string): string {
  const open = profileReplies.value[file];
  const isIllustration = open?.illustration === true || file === ILLUSTRATIVE;
  return isIllustration ? ILLUSTRATIVE_NAME : (open?.description ?? file);
}

/** Hang variants side by side, and keep them in step with the job until `endComparison`. */
export function compare(next: Plan): void {
  const wrong = countWrong(next);
  batch(() => {
    refused.value = wrong;
    if (wrong !== undefined) return;
    wanted.value = undefined;
    byHand = true;
    plan.value = next;
    // What was said of one canvas is done with, and would lie over the panes.
    closeAnnouncement();
    if (wallState.value !== "none" && scene.value !== "photo") scene.value = "wall";
  });
}

/** End the comparison: the current work hangs alone again. */
export function endComparison(): void {
  queryQueue.stop(QUERY_KIND);
  batch(() => {
    plan.value = undefined;
    compared.value = undefined;
    comparing.value = undefined;
    refused.value = undefined;
    wanted.value = undefined;
  });
}

/** Make the job what one of the variants is: one step, which undo takes back. */
export async function keepChoice({ label, change }: Choice): Promise<void> {
  const now = compared.value;
  if (now === undefined) return;
  const { field, one } = KINDS[now.plan.kind];
  endComparison();
  await proposeAndAnnounce({ field, label: one, change }, say("{label} kept. Undo takes it back.", { label }));
}

/** Ask from now on, whenever there is something to compare. */
export function startComparisonQueries(): void {
  effect(() => {
    const [next, now] = [plan.value, work.value];
    if (next === undefined || now === undefined || shown.value === undefined) return;
    if (now.picture === NO_PICTURE) {
      endComparison();
      return;
    }
    if (waiting.value > 0) {
      // The change of the job must not wait; the question is put again after it.
      queryQueue.stop(QUERY_KIND);
      wanted.value = undefined;
      return;
    }
    const variants = choicesOf(next, unit.peek(), profileName).map(({ label, change }) => ({
      label,
      job: change(now.job),
    }));
    const around = [now.picture, profilesKept.value, viewing.value, next.kind];
    const key = comparisonKey(
      variants.map((one) => one.job),
      around,
    );
    if (key === wanted.peek()) return;
    wanted.value = key;
    if (compared.peek()?.key === key) {
      // What was begun for a job that has been taken back is no longer on its way.
      comparing.value = undefined;
      return;
    }
    refused.value = undefined;
    const question = { key, plan: next, variants, picture: now.picture };
    queryQueue.add(QUERY_KIND, (stopped) => ask(question, stopped), byHand);
    byHand = false;
  });
  // Tests read this from outside.
  effect(() => {
    const state = refused.value ? "refused" : plan.value === undefined ? "none" : "asking";
    document.documentElement.dataset["compare"] = compared.value !== undefined && !outdated.value ? "shown" : state;
  });
}

interface Question {
  readonly key: string;
  readonly plan: Plan;
  readonly variants: readonly { readonly label: string; readonly job: Job }[];
  readonly picture: number;
}

async function ask({ key, plan: asked, variants, picture }: Question, stopped: AbortSignal): Promise<void> {
  comparing.value = { done: 0, label: say("Comparing {many}", { many: KINDS[asked.kind].many }) };
  try {
    for (const name of new Set(variants.map((one) => one.job.colour.profile))) await openProfileInCore(name);
    const params = { variants: listed(variants), viewing: viewing.peek(), screen: DRAWN_TO };
    const onProgress = (progress: Progress) => (comparing.value = progress);
    const { reply, buffers } = await callAbout(picture, "compare", params, { signal: stopped, onProgress });
    if (!stopped.aborted)
      compared.value = { key, plan: asked, variants: reply.variants, panes: panesOf(reply, buffers) };
  } catch (failure) {
    if (stopped.aborted) return;
    batch(() => {
      // A comparison that no longer holds leaves the wall.
      compared.value = undefined;
      refused.value = failureText(failure);
    });
  } finally {
    if (!stopped.aborted) comparing.value = undefined;
  }
}
