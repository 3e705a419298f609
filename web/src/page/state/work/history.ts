// Undo and redo: what was, what is, and what was taken back. Pure; a drag counts as one step.

/** One state of the work, the change that led to it, and the gesture that change belongs to. */
export interface Step<T> {
  readonly state: T;
  readonly label: string;
  readonly group?: string;
}

export interface History<T> {
  readonly past: readonly Step<T>[];
  readonly present: Step<T>;
  readonly future: readonly Step<T>[];
}

/** So many steps can be taken back. */
export const KEPT_STEPS = 200;

export function begin<T>(state: T, label = ""): History<T> {
  return { past: [], present: { state, label }, future: [] };
}

/** A new state; within one gesture (the same group) it takes the place of the last. */
export function push<T>(history: History<T>, step: Step<T>): History<T> {
  const same = step.group !== undefined && step.group === history.present.group;
  const past = same ? history.past : [...history.past, history.present].slice(-KEPT_STEPS);
  return { past, present: step, future: [] };
}

export function undo<T>(history: History<T>): History<T> {
  const last = history.past.at(-1);
  if (last === undefined) return history;
  return { past: history.past.slice(0, -1), present: last, future: [history.present, ...history.future] };
}

export function redo<T>(history: History<T>): History<T> {
  const [next, ...rest] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.present], present: next, future: rest };
}

/** What undo would take back, and what redo would bring again. */
export function undoLabel<T>(history: History<T>): string | undefined {
  return history.past.length > 0 ? history.present.label : undefined;
}

export function redoLabel<T>(history: History<T>): string | undefined {
  return history.future[0]?.label;
}

// The keys for undo and redo. Pure.

/** Undo: Ctrl or Cmd with Z. Redo: the same with Shift, or Ctrl with Y. */
export function stepOf(
  event: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "shiftKey" | "altKey">,
): "undo" | "redo" | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" && event.ctrlKey && !event.shiftKey ? "redo" : undefined;
}
