// Undo and redo: past, present and future states, and their keys. Pure; a drag counts as one step.

/** One state of the work, the change that led to it, and the gesture that change belongs to. */
export interface Step<T> {
  readonly state: T;
  readonly label: string;
  readonly gesture?: string;
}

export interface History<T> {
  readonly past: readonly Step<T>[];
  readonly present: Step<T>;
  readonly future: readonly Step<T>[];
}

/** The number of steps that undo can take back. */
export const KEPT_STEPS = 200;

export function begin<T>(state: T, label = ""): History<T> {
  return { past: [], present: { state, label }, future: [] };
}

/** Add a state; within one gesture it replaces the present one. */
export function push<T>(history: History<T>, step: Step<T>): History<T> {
  const same = step.gesture !== undefined && step.gesture === history.present.gesture;
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

/** The labels of the steps that undo and redo would take. */
export function undoLabel<T>(history: History<T>): string | undefined {
  return history.past.length > 0 ? history.present.label : undefined;
}

export function redoLabel<T>(history: History<T>): string | undefined {
  return history.future[0]?.label;
}

/** Undo: Ctrl or Cmd with Z. Redo: the same with Shift, or Ctrl with Y. */
export function historyKey(
  event: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "shiftKey" | "altKey">,
): "undo" | "redo" | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" && event.ctrlKey && !event.shiftKey ? "redo" : undefined;
}
