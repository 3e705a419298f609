// The order in which changes reach the core. One call runs at a time; changes that come meanwhile wait and are
// sent together, and of one gesture only the newest. Pure.
import type { Job } from "../../contract/types";
import type { Edit } from "./edit";
import type { Work } from "./work";

/** Something to be done to the work in hand. */
export type Task =
  | { readonly kind: "edit"; readonly edit: Edit; readonly alone?: boolean }
  | { readonly kind: "undo" }
  | { readonly kind: "redo" }
  /** Another job, or the same one shown anew after the core was started again. */
  | { readonly kind: "load"; readonly work: Work; readonly label: string; readonly fresh?: boolean }
  /** Another picture; what becomes of the job is known once it was opened. */
  | { readonly kind: "picture"; readonly picture: number; readonly label: string; readonly change: (job: Job) => Work };

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
    task.edit.group !== undefined &&
    task.edit.group === last.edit.group;
  return { ...queue, waiting: [...(same ? queue.waiting.slice(0, -1) : queue.waiting), task] };
}

/** What runs next: one task, or all edits up to the next task of another kind. */
export function take(queue: Queue): Queue {
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
export function groupOf(edits: readonly Edit[]): string | undefined {
  const group = edits[0]?.group;
  return edits.every((edit) => edit.group === group) ? group : undefined;
}
