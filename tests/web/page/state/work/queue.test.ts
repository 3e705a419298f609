import { describe, expect, it } from "vitest";
import { type Edit, setBars, setFace } from "../../../../../web/src/page/state/work/edit";
import { begin } from "../../../../../web/src/page/state/work/history";
import {
  advance,
  editsOf,
  enqueue,
  gestureOf,
  IDLE,
  type Queue,
  settle,
  split,
  startNext,
  type Task,
} from "../../../../../web/src/page/state/work/queue";
import type { Work } from "../../../../../web/src/page/state/work/work";
import { JOB } from "../../jobs";

const edit = (field: string, gesture?: string): Edit => ({
  field,
  label: field,
  change: (job) => job,
  ...(gesture === undefined ? {} : { gesture }),
});
const task = (field: string, gesture?: string): Task => ({
  kind: "edit",
  edit: edit(field, gesture),
});
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
    const running = startNext(waitingFor(task("depth", "drag#1")));
    const queue = enqueue(running, task("depth", "drag#1"));
    expect(queue.running.length).toBe(1);
    expect(queue.waiting.length).toBe(1);
  });

  it("sends edits that waited together, up to a task of another kind", () => {
    const queue = startNext(waitingFor(task("a"), task("b"), { kind: "undo" }, task("c")));
    expect(fields(queue.running)).toEqual(["a", "b"]);
    expect(fields(startNext(queue).running)).toEqual(["undo"]);
    expect(fields(startNext(startNext(queue)).running)).toEqual(["c"]);
    expect(startNext(startNext(startNext(queue)))).toEqual(IDLE);
  });

  it("tries each edit by itself after a common failure, before what came later", () => {
    const failed = enqueue(startNext(waitingFor(task("a"), task("b"))), task("c"));
    const queue = startNext(split(failed));
    expect(fields(queue.running)).toEqual(["a"]);
    expect(fields(startNext(queue).running)).toEqual(["b"]);
    expect(fields(startNext(startNext(queue)).running)).toEqual(["c"]);
  });

  it("knows the gesture of a batch only where all of it is one", () => {
    expect(gestureOf([edit("a", "x"), edit("b", "x")])).toBe("x");
    expect(gestureOf([edit("a", "x"), edit("b", "y")])).toBeUndefined();
    expect(gestureOf([edit("a")])).toBeUndefined();
    expect(editsOf([{ kind: "redo" }, task("a")]).length).toBe(1);
  });
});

const WORK: Work = { job: JOB, picture: 1, demo: true };
const deeper = (depth_mm: number, gesture?: string): Task => ({
  kind: "edit",
  edit: {
    field: "bars.depth_mm",
    label: "bar depth",
    change: setBars({ depth_mm }),
    ...(gesture === undefined ? {} : { gesture }),
  },
});
const wider: Task = {
  kind: "edit",
  edit: {
    field: "face.width_mm",
    label: "face width",
    change: setFace({ width_mm: 300 }),
  },
};

describe("what becomes of the work", () => {
  it("begins with what is loaded first", () => {
    const history = advance(undefined, [{ kind: "load", work: WORK, label: "the demo" }]);
    expect(history).toEqual(begin(WORK, "the demo"));
  });

  it("has nothing to change before something is loaded", () => {
    expect(advance(undefined, [deeper(38)])).toBeUndefined();
    expect(advance(undefined, [{ kind: "undo" }])).toBeUndefined();
  });

  it("applies every edit of a batch, in order, as one step", () => {
    const history = advance(begin(WORK), [deeper(18), wider, deeper(38)]);
    expect(history?.present.state.job).toEqual({
      ...JOB,
      bars: { ...JOB.bars, depth_mm: 38 },
      face: { width_mm: 300, height_mm: 297 },
    });
    expect(history?.past.length).toBe(1);
    expect(history?.present.state.demo).toBe(true);
  });

  it("goes on in the same step within a gesture", () => {
    const first = advance(begin(WORK), [deeper(18, "drag#1")]);
    const second = advance(first, [deeper(19, "drag#1")]);
    expect(second?.past.length).toBe(1);
    expect(second?.present.state.job.bars.depth_mm).toBe(19);
  });

  it("is no step of undo where an edit changes nothing", () => {
    const history = begin({ job: JOB, picture: 1, demo: false });
    const same: Edit = { ...edit("face"), change: (job) => ({ ...job, face: { ...job.face } }) };
    expect(advance(history, [{ kind: "edit", edit: same }])).toBe(history);
  });

  it("never changes the history it was given", () => {
    const before = begin(WORK);
    advance(before, [deeper(50)]);
    expect(before.present.state.job.bars.depth_mm).toBe(20);
  });

  it("undoes another picture with its job", () => {
    const other: Work = {
      job: {
        ...JOB,
        picture: {
          file: "dune.png",
          sha256: "",
          turn: 0,
          enlarging: "photograph",
        },
      },
      picture: 2,
      demo: false,
    };
    const after = advance(begin(WORK), [{ kind: "picture", label: "opening dune.png", change: () => other }]);
    expect(after?.present.state).toEqual(other);
    expect(advance(after, [{ kind: "undo" }])?.present.state).toEqual(WORK);
  });

  it("adds no step when the same work is shown anew after a crash", () => {
    const before = begin(WORK);
    expect(advance(before, [{ kind: "load", work: WORK, label: "", fresh: true }])).toBe(before);
  });

  it("keeps the job as the core has checked it", () => {
    const checked = { ...JOB, name: "As checked" };
    expect(settle(begin(WORK), checked).present.state).toEqual({
      ...WORK,
      job: checked,
    });
  });
});
