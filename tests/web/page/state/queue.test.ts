import { describe, expect, it } from "vitest";
import type { Edit } from "../../../../web/src/page/state/edit";
import {
  editsOf,
  enqueue,
  groupOf,
  IDLE,
  type Queue,
  split,
  take,
  type Task,
} from "../../../../web/src/page/state/queue";

const edit = (field: string, group?: string): Edit => ({
  field,
  label: field,
  change: (job) => job,
  ...(group === undefined ? {} : { group }),
});
const task = (field: string, group?: string): Task => ({ kind: "edit", edit: edit(field, group) });
const fields = (tasks: readonly Task[]): string[] =>
  tasks.map((one) => (one.kind === "edit" ? one.edit.field : one.kind));
const waitingFor = (...tasks: Task[]): Queue => tasks.reduce(enqueue, IDLE);

describe("queue of changes", () => {
  it("lets only the newest of one gesture wait", () => {
    const queue = waitingFor(task("depth", "drag#1"), task("depth", "drag#1"), task("depth", "drag#1"));
    expect(queue.waiting.length).toBe(1);
  });

  it("keeps changes of different gestures, and those that belong to none", () => {
    expect(waitingFor(task("a", "x#1"), task("a", "x#2")).waiting.length).toBe(2);
    expect(waitingFor(task("a"), task("a")).waiting.length).toBe(2);
  });

  it("takes the place of nothing that runs already", () => {
    const running = take(waitingFor(task("depth", "drag#1")));
    const queue = enqueue(running, task("depth", "drag#1"));
    expect(queue.running.length).toBe(1);
    expect(queue.waiting.length).toBe(1);
  });

  it("sends edits that waited together, up to a task of another kind", () => {
    const queue = take(waitingFor(task("a"), task("b"), { kind: "undo" }, task("c")));
    expect(fields(queue.running)).toEqual(["a", "b"]);
    expect(fields(take(queue).running)).toEqual(["undo"]);
    expect(fields(take(take(queue)).running)).toEqual(["c"]);
    expect(take(take(take(queue)))).toEqual(IDLE);
  });

  it("tries each edit by itself after a common failure, before what came later", () => {
    const failed = enqueue(take(waitingFor(task("a"), task("b"))), task("c"));
    const queue = take(split(failed));
    expect(fields(queue.running)).toEqual(["a"]);
    expect(fields(take(queue).running)).toEqual(["b"]);
    expect(fields(take(take(queue)).running)).toEqual(["c"]);
  });

  it("knows the gesture of a batch only where all of it is one", () => {
    expect(groupOf([edit("a", "x"), edit("b", "x")])).toBe("x");
    expect(groupOf([edit("a", "x"), edit("b", "y")])).toBeUndefined();
    expect(groupOf([edit("a")])).toBeUndefined();
    expect(editsOf([{ kind: "redo" }, task("a")]).length).toBe(1);
  });
});
