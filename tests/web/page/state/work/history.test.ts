import { describe, expect, it } from "vitest";
import {
  begin,
  type History,
  KEPT_STEPS,
  push,
  redo,
  redoLabel,
  historyKey,
  undo,
  undoLabel,
} from "../../../../../web/src/page/state/work/history";

const step = (state: number, gesture?: string) => ({
  state,
  label: `to ${state}`,
  ...(gesture === undefined ? {} : { gesture }),
});

describe("history", () => {
  it("goes back and forth through every change", () => {
    const three = [1, 2, 3].reduce((history: History<number>, state) => push(history, step(state)), begin(0));
    const back = undo(undo(three));
    expect(back.present.state).toBe(1);
    expect(redo(back).present.state).toBe(2);
    expect(redo(redo(back))).toEqual(three);
  });

  it("stays where it is at either end", () => {
    const history = push(begin(0), step(1));
    expect(redo(history)).toBe(history);
    expect(undo(undo(history)).present.state).toBe(0);
  });

  it("forgets what was taken back once something new is done", () => {
    const history = push(undo(push(push(begin(0), step(1)), step(2))), step(9));
    expect(history.future).toEqual([]);
    expect(undo(history).present.state).toBe(1);
  });

  it("counts a gesture as one step, and the next gesture as another", () => {
    let history = begin(0);
    for (const state of [1, 2, 3]) history = push(history, step(state, "drag#1"));
    for (const state of [4, 5]) history = push(history, step(state, "drag#2"));
    expect(undo(history).present.state).toBe(3);
    expect(undo(undo(history)).present.state).toBe(0);
  });

  it("does not run two changes without a gesture together", () => {
    expect(undo(push(push(begin(0), step(1)), step(2))).present.state).toBe(1);
  });

  it("begins a new step after an undo, even within the same gesture", () => {
    const back = undo(push(push(begin(0), step(1, "a")), step(2, "b")));
    expect(undo(push(back, step(3, "b"))).present.state).toBe(1);
  });

  it("names what would be taken back and brought again", () => {
    const history = push(push(begin(0), step(1)), step(2));
    expect(undoLabel(history)).toBe("to 2");
    expect(redoLabel(history)).toBeUndefined();
    expect(redoLabel(undo(history))).toBe("to 2");
    expect(undoLabel(begin(0))).toBeUndefined();
  });

  it("keeps so many steps and no more", () => {
    let history = begin(0);
    for (let state = 1; state <= KEPT_STEPS + 5; state++) history = push(history, step(state));
    expect(history.past.length).toBe(KEPT_STEPS);
  });
});

const press = (key: string, held: Partial<Record<"ctrlKey" | "metaKey" | "shiftKey" | "altKey", boolean>>) =>
  historyKey({
    key,
    ctrlKey: false,
    metaKey: false,
    shiftKey: false,
    altKey: false,
    ...held,
  });

it("undoes by Ctrl or Cmd with Z", () => {
  expect(press("z", { ctrlKey: true })).toBe("undo");
  expect(press("z", { metaKey: true })).toBe("undo");
});

it("redoes by the same with Shift, whose key is then a capital, and by Ctrl with Y", () => {
  expect(press("Z", { ctrlKey: true, shiftKey: true })).toBe("redo");
  expect(press("Z", { metaKey: true, shiftKey: true })).toBe("redo");
  expect(press("y", { ctrlKey: true })).toBe("redo");
});

it("leaves everything else to the browser", () => {
  expect(press("z", {})).toBeUndefined();
  expect(press("z", { ctrlKey: true, altKey: true })).toBeUndefined();
  expect(press("y", { metaKey: true })).toBeUndefined();
});
