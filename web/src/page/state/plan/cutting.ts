// The cutting plan of the open job: asked for while it is seen, after each change of the job or of its own choices.
import { computed, effect, signal } from "@preact/signals";
import type { Job, Pin, Plan, PlanParams } from "../../../contract/types";
import { getCore } from "../core/connection";
import { queryQueue } from "../core/queries";
import { Query } from "../core/query";
import { dependsOn } from "../../../contract/dependence";
import type { FieldError } from "../page/fields";
import { firstShown } from "../page/status";
import { job, shown } from "../work/work";
import { planChoices, planOptions } from "./options";

/** What the core calls the pins. */
const PINS = "pins";

export const planQuery = new Query<Plan>("cutting plan", queryQueue);
/** Whether the plan is on the screen. */
export const planSeen = signal(false);
export const pins = signal<readonly Pin[]>([]);
/** Why the latest pin was not kept. */
export const pinRefused = signal<FieldError | undefined>(undefined);
/** The piece that is chosen, by name. */
export const chosenPiece = signal<string | undefined>(undefined);

/** The latest plan; it stays until the next one comes, or none can be made. A pin that is refused is taken back. */
export const cuttingPlan = computed(() => {
  const { failure, known } = planQuery;
  return failure.value === undefined || failure.value.field === PINS ? known.value?.value : undefined;
});

/** The pins of the latest plan that could be made. */
let pinsBefore: readonly Pin[] = [];

/** Pin or let go: what the core refuses is taken back. */
export function setPins(next: readonly Pin[]): void {
  pinRefused.value = undefined;
  pins.value = next;
}

/** Goes up when a plan that could not be made is asked for again. */
const attempts = signal(0);

/** Ask again after a failure. */
export function planAgain(): void {
  planQuery.stop();
  attempts.value += 1;
}

/** Ask from now on. */
export function startPlanQueries(): void {
  let piecesBefore = "";
  effect(() => {
    const now = job.value;
    void attempts.value;
    if (now === undefined || !planSeen.value || !firstShown.value || shown.value === undefined) return;
    const pieces = JSON.stringify([now.name, now.group.panels, planChoices.value.copies]);
    // Pins name pieces: with other pieces they mean nothing.
    if (pieces !== piecesBefore && piecesBefore !== "") setPins([]);
    piecesBefore = pieces;
    const asked = paramsOf(now, pins.value);
    const key = JSON.stringify([dependsOn(now, "cutting"), asked.copies, asked.options]);
    planQuery.request(key, async (stopped) => {
      const { reply } = await getCore().call("plan", asked, { signal: stopped });
      return reply;
    });
  });
  effect(() => {
    const failure = planQuery.failure.value;
    if (failure?.field === PINS && pins.peek().length > 0) {
      pins.value = pins.peek() === pinsBefore ? [] : pinsBefore;
      pinRefused.value = failure;
    } else if (planQuery.fresh.value !== undefined) pinsBefore = pins.peek();
  });
  // Tests read this from outside.
  effect(() => {
    document.documentElement.dataset["plan"] = planQuery.pending.value ? "asking" : "known";
  });
}

function paramsOf(now: Job, pinned: readonly Pin[]): PlanParams {
  const choices = planChoices.value;
  return { job: now, copies: choices.copies, options: planOptions(choices, pinned) };
}
