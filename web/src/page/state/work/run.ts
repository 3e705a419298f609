// Sends changes to the core: each is a candidate until the core has shown it, and only then becomes the job.
import { batch as batchSignals } from "@preact/signals";
import { advance, editsOf, enqueue, IDLE, type Queue, settle, split, take, type Task } from "./queue";
import { onRestart, theCore } from "../core/connection";
import { asCoreError } from "../../../worker/errors";
import type { Edit } from "./edit";
import { draftsDropped, messages, say, sentence, unsay, unsayAll } from "../page/fields";
import { pictureFile } from "./pictures";
import { openedPicture, received } from "./receive";
import { loading, tell } from "../page/status";
import { busy, history, waiting, type OpenPicture, picture, shown, type Work, work } from "./work";

/** So many deaths of the core in a row, and the page stops asking. */
const CRASHES_ALLOWED = 3;

let queue = IDLE;
let opened: OpenPicture | undefined;
let crashes = 0;
let idle = Promise.resolve();

function put(next: Queue): void {
  queue = next;
  waiting.value = next.running.length + next.waiting.length;
}

/** Offer a change of the job; if the core refuses it, a message stands beside the field. Resolves as `add` does. */
export function propose(edit: Edit): Promise<void> {
  return add({ kind: "edit", edit });
}

/** Put a task at the end of the queue. Resolves when nothing waits any more. */
export function add(task: Task): Promise<void> {
  put(enqueue(queue, task));
  if (queue.running.length === 0) idle = drain();
  return idle;
}

/** Take the last change back, or bring it again. Nothing that is typed but not accepted survives it. */
export function step(kind: "undo" | "redo"): Promise<void> {
  unsayAll();
  return add({ kind });
}

onRestart(() => {
  opened = undefined;
  const now = history.value?.present.state;
  if (now === undefined) return;
  tell("The core stopped and was started again. Nothing was lost.");
  put({ ...queue, waiting: [restore(now), ...queue.waiting] });
  if (queue.running.length === 0) idle = drain();
});

function restore(work: Work): Task {
  return { kind: "load", work, label: "", fresh: true };
}

async function drain(): Promise<void> {
  for (put(take(queue)); queue.running.length > 0; put(take(queue))) {
    try {
      await perform(queue.running);
      crashes = 0;
    } catch (failure) {
      refuse(queue.running, failure);
    } finally {
      busy.value = "";
    }
  }
}

async function perform(batch: readonly Task[]): Promise<void> {
  const next = advance(history.value, batch);
  if (next === undefined) return;
  const { job, picture: id } = next.present.state;
  busy.value = "Working";
  const fresh = shown.value === undefined || opened === undefined;
  const open = await openInCore(id);
  const { reply, buffers } = await theCore().call("show", { job, fresh });
  const now = received(reply, buffers, shown.value);
  batchSignals(() => {
    picture.value = open;
    shown.value = now;
    history.value = settle(next, reply.job);
    loading.value = { state: "ready" };
  });
  unsay(...editsOf(batch).map((edit) => edit.field));
  if (batch[0]?.kind === "load" || batch[0]?.kind === "picture") unsay("picture.file", "job");
  if (batch[0]?.kind === "load" && batch[0].fresh !== true) draftsDropped.value += 1;
}

/** Offer a change from elsewhere than beside its field, and tell what came of it: `done`, or why it was refused. */
export async function proposeAloud(edit: Edit, done: string): Promise<void> {
  await propose(edit);
  const wrong = messages.value[edit.field];
  tell(wrong ? sentence(wrong) : done);
}

/** Resolves when no change waits for the core any more. */
export function whenSettled(): Promise<void> {
  return idle;
}

/** The work in hand, once no change of it waits and the core holds its picture; nothing before the first work. */
export async function settledWork(): Promise<Work | undefined> {
  await whenSettled();
  const now = work.value;
  if (now !== undefined) await openInCore(now.picture);
  return now;
}

/** Open a picture in the core, which holds one at a time, unless it holds this one already. */
export async function openInCore(id: number): Promise<OpenPicture> {
  if (opened?.id === id) return opened;
  const file = pictureFile(id);
  if (file === undefined) throw new Error(`picture ${id} was never kept`);
  busy.value = `Reading ${file.name}`;
  const buffer = await file.blob.arrayBuffer();
  const { reply, buffers } = await theCore().call(
    "open",
    { file: file.name },
    { buffer, onProgress: ({ label }) => (busy.value = label) },
  );
  opened = openedPicture(id, reply, buffers);
  return opened;
}

function refuse(batch: readonly Task[], failure: unknown): void {
  const error = asCoreError(failure);
  const edits = editsOf(batch);
  if (error.code !== "crash" && edits.length > 1) {
    put(split(queue));
    return;
  }
  if (error.code === "crash") {
    crashes += 1;
    if (crashes >= CRASHES_ALLOWED) {
      loading.value = { state: "failed", got: error.got, remedy: error.remedy };
      put(IDLE);
      return;
    }
    // The demo, or the work of the last visit: nothing is shown yet that could stay.
    if (history.value === undefined) put({ running: [], waiting: [...batch, ...queue.waiting] });
  }
  const { field, expected, got, remedy } = error;
  for (const place of edits.length > 0 ? edits.map((edit) => edit.field) : placesOf(batch)) {
    say(place, { field: field === "" ? place : field, expected, got, remedy });
  }
}

function placesOf(batch: readonly Task[]): string[] {
  return batch.flatMap((task) => {
    if (task.kind === "picture") return ["picture.file"];
    return task.kind === "load" && task.fresh !== true ? ["job"] : [];
  });
}
