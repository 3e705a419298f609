// Sends changes to the core: each is a candidate until the core has shown it, and only then becomes the job.
import { batch as batchSignals, signal } from "@preact/signals";
import { advance, editsOf, enqueue, IDLE, type Queue, settle, split, startNext, type Task } from "./queue";
import { getCore, onForgotten, onRestart } from "../core/connection";
import { asCoreError } from "../../../worker/errors";
import type { Params } from "../../../contract/calls";
import type { LargestFace, Method } from "../../../contract/types";
import type { Answer } from "../../../worker/calls";
import type { CallOptions } from "../../../worker/core";
import { type Edit, setFace } from "./edit";
import type { History } from "./history";
import { proposedSentence } from "../layout/face_sentences";
import { unit } from "../page/settings";
import {
  failureText,
  fileFailure,
  fieldErrors,
  setFieldError,
  errorSentence,
  clearFieldErrors,
  clearAllFieldErrors,
} from "../page/fields";
import { fitted } from "./picture_job";
import { NO_PICTURE, pictureFile } from "./pictures";
import { openedPicture, received } from "./receive";
import { loading, announce, announcement, closeAnnouncement } from "../page/status";
import { READ_ONLY, readOnly } from "../keeping/mode";
import { busy, history, waiting, type OpenPicture, picture, shown, type Work, work } from "./work";
import { say } from "../../../speech/on_page";

/** The number of crashes in a row after which the page stops asking. */
const CRASHES_ALLOWED = 3;

let queue = IDLE;
/** The queue, for what keeps the job: a change that waits is kept too. */
export const queued = signal<Queue>(IDLE);
/** The number of the picture that the core has open, `NO_PICTURE` where it has none; undefined: not known. */
let inCore: number | undefined;
let opened: OpenPicture | undefined;
/** The pictures that are being opened, one after another. */
let opening: Promise<unknown> = Promise.resolve();
/** A change that brings another picture: until it is shown nobody else opens one, or a large one would be read twice. */
let bringing: Promise<void> | undefined;
let crashes = 0;
/** What was announced of the latest change: it and what it says of undoing hold until the next one. */
let told = "";
let idle = Promise.resolve();

function setQueue(next: Queue): void {
  queue = next;
  batchSignals(() => {
    queued.value = next;
    waiting.value = next.running.length + next.waiting.length;
  });
}

/** Propose a change of the job. If the core refuses it, an error stands beside the field. Resolves as `add` does. */
export function propose(edit: Edit): Promise<void> {
  return add({ kind: "edit", edit });
}

/** Put a task at the end of the queue. Resolves when nothing waits any more. */
export function add(task: Task): Promise<void> {
  if (readOnly.peek() && task.kind !== "load") {
    refuseHere(task);
    return idle;
  }
  setQueue(enqueue(queue, task));
  if (queue.running.length === 0) idle = drain();
  return idle;
}

/** Another tab writes this job: nothing changes here. */
function refuseHere(task: Task): void {
  if (task.kind === "edit") setFieldError(task.edit.field, { field: task.edit.field, ...READ_ONLY });
  else if (task.kind === "picture") setFieldError("picture.file", { field: "picture.file", ...READ_ONLY });
  else announce(errorSentence({ field: "", ...READ_ONLY }));
}

/** Undo or redo the latest change. Drafts that were not accepted are dropped. */
export function step(kind: "undo" | "redo"): Promise<void> {
  clearAllFieldErrors();
  return add({ kind });
}

onRestart(() => {
  inCore = undefined;
  opened = undefined;
  const now = history.value?.present.state;
  if (now === undefined) return;
  announce(say("The program in the page stopped and was started again. Nothing was lost."));
  setQueue({ ...queue, waiting: [restore(now), ...queue.waiting] });
  if (queue.running.length === 0) idle = drain();
});

onForgotten(() => {
  inCore = undefined;
  opened = undefined;
  crashes = 0;
});

/** Show the work in hand anew, in a core that was started for it. */
export function restoreWork(): Promise<void> {
  const now = history.value?.present.state;
  return now === undefined ? idle : add(restore(now));
}

function restore(former: Work): Task {
  return { kind: "load", work: former, label: "", fresh: true };
}

async function drain(): Promise<void> {
  setQueue(startNext(queue));
  while (queue.running.length > 0) {
    try {
      await perform(queue.running);
      crashes = 0;
    } catch (failure) {
      refuse(queue.running, failure);
    } finally {
      busy.value = "";
    }
    setQueue(startNext(queue));
  }
}

async function perform(batch: readonly Task[]): Promise<void> {
  const before = history.value;
  const changed = advance(before, batch);
  if (changed === undefined) return;
  busy.value = say("Working");
  if (changed.present.state.picture === inCore) return showChange(before, changed, batch);
  try {
    await (bringing = showChange(before, changed, batch));
  } finally {
    bringing = undefined;
  }
}

async function showChange(
  before: History<Work> | undefined,
  changed: History<Work>,
  batch: readonly Task[],
): Promise<void> {
  const fresh = shown.value === undefined || inCore === undefined;
  const id = changed.present.state.picture;
  const open = await openInTurn(id);
  const { next, face, told: ofPicture } = await withItsPicture(changed, batch, open);
  await openInTurn(id);
  const { reply, buffers } = await getCore().call("show", { job: next.present.state.job, fresh });
  const now = received(reply, buffers, shown.value);
  batchSignals(() => {
    picture.value = open;
    shown.value = now;
    history.value = settle(grown(next, batch, before), reply.job);
    loading.value = { state: "ready" };
    if (batch[0]?.kind === "load") batch[0].opened?.();
  });
  if (announcement.value === told) closeAnnouncement();
  const sentences = [ofPicture, face && proposedSentence(face, reply.job, unit.value)].filter(
    (one) => one !== undefined,
  );
  if (sentences.length > 0) announce((told = sentences.join(" ")));
  clearFieldErrors(...editsOf(batch).map((edit) => edit.field));
  if (batch[0]?.kind === "load" || batch[0]?.kind === "picture") clearFieldErrors("picture.file", "job");
  // What is wrong was wrong of the job before.
  if (batch[0]?.kind === "load" && batch[0].fresh !== true) clearAllFieldErrors();
}

/** What a batch has led to, with the earlier steps that the history has been given meanwhile. */
function grown(next: History<Work>, batch: readonly Task[], before: History<Work> | undefined): History<Work> {
  const now = history.value;
  const again = now === before ? undefined : advance(now, batch);
  return again === undefined ? next : { ...again, present: next.present };
}

interface WithPicture {
  readonly next: History<Work>;
  /** A face that was proposed. */
  readonly face?: LargestFace;
  /** What of the former picture's stays or goes. */
  readonly told?: string;
}

/** What depends on the size of a picture that was opened: whether what was set for the former one stays, and a face. */
async function withItsPicture(
  changed: History<Work>,
  batch: readonly Task[],
  open: OpenPicture | undefined,
): Promise<WithPicture> {
  const task = batch[0];
  const before = history.value?.present.state;
  if (task?.kind !== "picture" || before === undefined) return { next: changed };
  const former = picture.value?.id === before.picture ? picture.value.info : undefined;
  const { work: now, goesOn, told: words } = fitted(before, changed.present.state, former, open?.info);
  const after = (state: Work): WithPicture => ({
    next: { ...changed, present: { ...changed.present, state } },
    ...(words === undefined ? {} : { told: goesOn ? words : `${words} ${say("Undo takes it back.")}` }),
  });
  if (now.picture === NO_PICTURE || goesOn || task.proposes?.(before) !== true) return after(now);
  const { face } = (await getCore().call("propose_face", { job: now.job, unit: unit.value })).reply;
  if (face === undefined) return after(now);
  const { width_mm, height_mm } = face;
  const proposed = { ...now, job: setFace({ width_mm, height_mm })(now.job), proposed: { width_mm, height_mm } };
  // What is said of the face says how both are undone.
  return { ...after(proposed), face, ...(words === undefined ? {} : { told: words }) };
}

/** Propose a change from elsewhere than beside its field, and announce the outcome: `done`, or the error. */
export async function proposeAndAnnounce(edit: Edit, done: string | (() => string)): Promise<void> {
  await propose(edit);
  const wrong = fieldErrors.value[edit.field];
  const outcome = typeof done === "string" ? done : done();
  announce((told = wrong ? errorSentence(wrong) : outcome));
}

/** Resolves when no change waits for the core any more. */
export function whenSettled(): Promise<void> {
  return idle;
}

/** The current work, once no change waits; undefined before the first work. */
export async function settledWork(): Promise<Work | undefined> {
  await whenSettled();
  return work.value;
}

/**
 * Ask the core about a picture. The core keeps one open at a time, and a call is about the one that is open when it
 * begins: so the picture is opened, unless it is open, directly before the call.
 */
export async function callAbout<M extends Method>(
  id: number,
  method: M,
  params: Params<M>,
  options?: CallOptions,
): Promise<Answer<M>> {
  await openInCore(id, options?.signal);
  return getCore().call(method, params, options);
}

/** Open a picture in the core, unless it is open, or close what is open. Rejects where that is not wanted any more. */
export async function openInCore(id: number, stopped?: AbortSignal): Promise<void> {
  await whenPictureStands(stopped);
  await openInTurn(id);
}

/** Resolves when no other picture is on its way to the stage. Rejects with the reason of what was stopped meanwhile. */
export async function whenPictureStands(stopped?: AbortSignal): Promise<void> {
  while (bringing !== undefined) await bringing.catch(() => undefined);
  stopped?.throwIfAborted();
}

function openInTurn(id: number): Promise<OpenPicture | undefined> {
  const mine = opening.then(() => openNext(id));
  opening = mine.catch(() => undefined);
  return mine;
}

async function openNext(id: number): Promise<OpenPicture | undefined> {
  if (inCore === id) return opened;
  if (id === NO_PICTURE) {
    await getCore().call("close", {});
    inCore = NO_PICTURE;
    opened = undefined;
    return undefined;
  }
  const file = pictureFile(id);
  if (file === undefined) throw new Error(`picture ${id} was never kept`);
  busy.value = say("Reading {file}", { file: file.name });
  const buffer = await file.blob.arrayBuffer();
  const { reply, buffers } = await getCore().call(
    "open",
    { file: file.name },
    { buffer, onProgress: ({ label }) => (busy.value = label) },
  );
  inCore = id;
  opened = openedPicture(id, reply, buffers);
  return opened;
}

function refuse(batch: readonly Task[], failure: unknown): void {
  const error = asCoreError(failure);
  const edits = editsOf(batch);
  if (error.code !== "crash" && edits.length > 1) {
    setQueue(split(queue));
    return;
  }
  if (error.code === "crash") {
    crashes += 1;
    if (crashes >= CRASHES_ALLOWED) {
      loading.value = { state: "failed", got: error.got, remedy: error.remedy };
      setQueue(IDLE);
      return;
    }
    // At the start no former work could stay, so the first one is tried again.
    if (history.value === undefined) setQueue({ running: [], waiting: [...batch, ...queue.waiting] });
  }
  // Undo has dropped the draft already, so the error is about nothing that stands beside the field.
  const dropped = queue.waiting.some(({ kind }) => kind === "undo" || kind === "redo");
  if (dropped && edits.length > 0) announce(errorSentence(failureText(error)));
  else for (const { field } of edits) setFieldError(field, failureText(error));
  if (edits.length === 0) for (const place of placesOf(batch)) setFieldError(place, fileFailure(error));
}

function placesOf(batch: readonly Task[]): string[] {
  return batch.flatMap((task) => {
    if (task.kind === "picture") return ["picture.file"];
    return task.kind === "load" && task.fresh !== true ? ["job"] : [];
  });
}
