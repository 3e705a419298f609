// The queue of all questions. It waits until no change is on its way and no pointer is pressed.
import { firstShown } from "../page/status";
import { QueryQueue } from "./query_queue";
import { openProfileInCore } from "../colour/profiles";
import { openInCore, whenPictureStands, whenSettled } from "../work/run";
import { waiting, work } from "../work/work";

/** A pointer that moves a control pauses no longer than this. */
const PAUSE_MS = 200;

let pressed = false;

/** Begin to follow whether a pointer is pressed. */
export function watchPointer(): void {
  addEventListener("pointerdown", () => (pressed = true), { capture: true });
  for (const end of ["pointerup", "pointercancel", "dragend", "blur"]) {
    addEventListener(end, () => (pressed = false), { capture: true });
  }
}

/** All questions beside the changes of the job. */
export const queryQueue = new QueryQueue(whenIdle);

async function whenIdle(urgent: boolean): Promise<void> {
  await whenSettled();
  if (urgent) return;
  do {
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    await whenSettled();
  } while (waiting.peek() > 0 || pressed || !firstShown.peek());
}

/** Open the picture and the profile of the current work in the core, unless they are open. */
export async function openWorkInCore(stopped?: AbortSignal): Promise<void> {
  await whenPictureStands(stopped);
  const now = work.peek();
  if (now === undefined) return;
  await openProfileInCore(now.job.colour.profile);
  await openInCore(now.picture, stopped);
}
