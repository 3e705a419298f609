// When the core is free for a question about colour: nothing is being changed, and no hand is at a control.
import { firstShown } from "../page/status";
import { Lane } from "./query_queue";
import { openProfileInCore } from "../colour/profiles";
import { openInCore, whenSettled } from "../work/run";
import { waiting, work } from "../work/work";

/** A hand that moves a control pauses no longer than this. */
const PAUSE_MS = 200;

let pressed = false;

/** Begin to heed the hand. */
export function watchHand(): void {
  addEventListener("pointerdown", () => (pressed = true), { capture: true });
  for (const end of ["pointerup", "pointercancel", "dragend", "blur"]) {
    addEventListener(end, () => (pressed = false), { capture: true });
  }
}

/** All questions about colour. */
export const lane = new Lane(quiet);

async function quiet(urgent: boolean): Promise<void> {
  await whenSettled();
  if (urgent) return;
  do {
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    await whenSettled();
  } while (waiting.peek() > 0 || pressed || !firstShown.peek());
}

/** See that the core holds picture and profile of the work in hand. */
export async function openBoth(): Promise<void> {
  const now = work.peek();
  if (now === undefined) return;
  await openInCore(now.picture);
  await openProfileInCore(now.job.colour.profile);
}
