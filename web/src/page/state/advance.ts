// What the history of the work becomes when a batch of tasks succeeds. Pure.
import { begin, type History, push, redo, undo } from "./history";
import { editsOf, groupOf, type Task } from "./queue";
import type { Work } from "./work";

/** The history with the batch done, or nothing where there is nothing to do it to. */
export function advance(history: History<Work> | undefined, batch: readonly Task[]): History<Work> | undefined {
  const first = batch[0];
  if (first?.kind === "load") {
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
      return push(history, { state: first.change(history.present.state.job), label: first.label });
    case "edit": {
      const edits = editsOf(batch);
      const before = history.present.state;
      const job = edits.reduce((made, edit) => edit.change(made), before.job);
      const group = groupOf(edits);
      const label = edits.at(-1)?.label ?? "";
      return push(history, { state: { ...before, job }, label, ...(group === undefined ? {} : { group }) });
    }
  }
}

/** The same history with the present job as the core has checked it. */
export function settle(history: History<Work>, job: Work["job"]): History<Work> {
  return { ...history, present: { ...history.present, state: { ...history.present.state, job } } };
}
