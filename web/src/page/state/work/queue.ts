// The order in which changes reach the core. One call runs at a time; changes that come meanwhile wait and are
// sent together, and of one gesture only the newest. The history after a batch has succeeded. Pure.
import type { Edit } from "./edit";
import { begin, type History, push, redo, undo } from "./history";
import type { Work } from "./work";

/** A task that changes the current work. */
export type Task =
  | { readonly kind: "edit"; readonly edit: Edit; readonly alone?: boolean }
  | { readonly kind: "undo" }
  | { readonly kind: "redo" }
  /** Another job, or the same one shown again after the core has restarted. */
  | {
      readonly kind: "load";
      readonly work: Work;
      readonly label: string;
      readonly fresh?: boolean;
      /** The history that comes with it; undo does not lead back to the job before. */
      readonly history?: History<Work>;
      /** Called with the change of the work, so that what is kept beside a job changes in the same moment. */
      readonly opened?: () => void;
    }
  /** Another picture; `proposes`: a face is proposed for it, if the work's face is open to that. */
  | {
      readonly kind: "picture";
      readonly label: string;
      readonly change: (work: Work) => Work;
      readonly proposes?: (work: Work) => boolean;
    };

export interface Queue {
  readonly running: readonly Task[];
  readonly waiting: readonly Task[];
}

export const IDLE: Queue = { running: [], waiting: [] };

/** A new task at the end; within one gesture it takes the place of the one that still waits. */
export function enqueue(queue: Queue, task: Task): Queue {
  const last = queue.waiting.at(-1);
  const same =
    task.kind === "edit" &&
    last?.kind === "edit" &&
    task.edit.gesture !== undefined &&
    task.edit.gesture === last.edit.gesture;
  return { ...queue, waiting: [...(same ? queue.waiting.slice(0, -1) : queue.waiting), task] };
}

/** What runs next: one task, or all edits up to the next task of another kind. */
export function startNext(queue: Queue): Queue {
  const [first, ...rest] = queue.waiting;
  if (first === undefined) return IDLE;
  if (first.kind !== "edit" || first.alone === true) return { running: [first], waiting: rest };
  const end = queue.waiting.findIndex((task) => task.kind !== "edit" || task.alone === true);
  const count = end === -1 ? queue.waiting.length : end;
  return { running: queue.waiting.slice(0, count), waiting: queue.waiting.slice(count) };
}

/** Several edits failed together: each is tried by itself, so that only the wrong one is refused. */
export function split(queue: Queue): Queue {
  const alone = queue.running.map((task): Task => (task.kind === "edit" ? { ...task, alone: true } : task));
  return { running: [], waiting: [...alone, ...queue.waiting] };
}

/** The edits of a batch. */
export function editsOf(tasks: readonly Task[]): Edit[] {
  return tasks.flatMap((task) => (task.kind === "edit" ? [task.edit] : []));
}

/** The gesture of a batch, if all of it is one. */
export function gestureOf(edits: readonly Edit[]): string | undefined {
  const gesture = edits[0]?.gesture;
  return edits.every((edit) => edit.gesture === gesture) ? gesture : undefined;
}

/** The history after the batch, or undefined where there is no work to change. */
export function advance(history: History<Work> | undefined, batch: readonly Task[]): History<Work> | undefined {
  const first = batch[0];
  if (first?.kind === "load") {
    if (first.history !== undefined) return first.history;
    if (history === undefined) return begin(first.work, first.label);
    return first.fresh === true ? history : push(history, { state: first.work, label: first.label });
  }
  if (history === undefined || first === undefined) return undefined;
  switch (first.kind) {
    case "undo":
      return undo(history);
    case "redo":
      return redo(history);
    case "picture":
      return push(history, { state: first.change(history.present.state), label: first.label });
    case "edit": {
      const edits = editsOf(batch);
      const before = history.present.state;
      const job = edits.reduce((made, edit) => edit.change(made), before.job);
      // Where nothing comes of it, undo has nothing to take back.
      if (JSON.stringify(job) === JSON.stringify(before.job)) return history;
      const gesture = gestureOf(edits);
      const label = edits.at(-1)?.label ?? "";
      return push(history, { state: { ...before, job }, label, ...(gesture === undefined ? {} : { gesture }) });
    }
  }
}

/** The same history with the present job as the core has checked it. */
export function settle(history: History<Work>, job: Work["job"]): History<Work> {
  return { ...history, present: { ...history.present, state: { ...history.present.state, job } } };
}
