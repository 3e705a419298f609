import { describe, expect, it } from "vitest";
import { candidateOf, entryOf, keptSteps, stepOf, StepNumbers } from "../../../../../web/src/page/state/keeping/steps";
import { setBars } from "../../../../../web/src/page/state/work/edit";
import { begin, push, redo, undo } from "../../../../../web/src/page/state/work/history";
import { enqueue, IDLE, startNext, type Task } from "../../../../../web/src/page/state/work/queue";
import type { Work } from "../../../../../web/src/page/state/work/work";
import { JOB } from "../../jobs";

const work = (picture: number, depth_mm = 20, demo = false): Work => ({
  job: setBars({ depth_mm })(JOB),
  picture,
  demo,
});
const deeper = (depth_mm: number): Task => ({
  kind: "edit",
  edit: {
    field: "bars.depth_mm",
    label: "bar depth",
    change: setBars({ depth_mm }),
  },
});

describe("the candidate", () => {
  it("is the work with all that waits for the core", () => {
    const queue = enqueue(startNext(enqueue(IDLE, deeper(30))), deeper(40));
    expect(candidateOf(begin(work(1)), queue)?.job.bars.depth_mm).toBe(40);
    expect(candidateOf(begin(work(1)), IDLE)).toBeUndefined();
  });

  it("follows undo and pictures, and leaves out a job that is being opened", () => {
    const history = push(begin(work(1, 20)), {
      state: work(1, 30),
      label: "deeper",
    });
    expect(candidateOf(history, enqueue(IDLE, { kind: "undo" }))?.job.bars.depth_mm).toBe(20);
    const picture: Task = {
      kind: "picture",
      label: "",
      change: (now) => ({ ...now, picture: 2 }),
    };
    expect(candidateOf(history, enqueue(IDLE, picture))?.picture).toBe(2);
    const load: Task = { kind: "load", work: work(9), label: "" };
    expect(candidateOf(history, enqueue(IDLE, load))).toBeUndefined();
  });
});

describe("the steps that are kept", () => {
  const label = (text: string, picture: number) => ({
    state: work(picture),
    label: text,
  });

  it("are all, with the place of the present one", () => {
    let history = begin(work(1), "first");
    for (const text of ["second", "third"]) history = push(history, label(text, 1));
    const kept = keptSteps(undo(history));
    expect(kept.steps.map((step) => step.label)).toEqual(["first", "second", "third"]);
    expect(kept.present).toBe(1);
    expect(keptSteps(redo(undo(history))).present).toBe(2);
  });

  it("reach three pictures back, and never into the demo", () => {
    let history = begin(work(1), "one");
    for (const picture of [2, 3, 4]) history = push(history, label(`picture ${picture}`, picture));
    expect(keptSteps(history).steps.map((step) => step.label)).toEqual(["picture 2", "picture 3", "picture 4"]);
    const own = push(begin(work(7, 20, true), "the demo"), label("own", 8));
    expect(keptSteps(own).steps.map((step) => step.label)).toEqual(["own"]);
  });

  it("have one number as long as they are the same, above those of the last visit", () => {
    const numbers = new StepNumbers();
    const [old, step] = [label("old", 1), label("new", 1)];
    numbers.enter(old, 41);
    expect([numbers.numberOf(old), numbers.numberOf(step), numbers.numberOf(step)]).toEqual([41, 42, 42]);
  });

  it("come back as they went", () => {
    const step = {
      state: {
        ...work(1),
        proposed: { width_mm: 300, height_mm: 200 },
        offered: 2,
      },
      label: "bar depth",
      gesture: "bars.depth_mm#3",
    };
    const entry = entryOf(step, (picture) => `key ${picture}`);
    expect(entry.picture).toBe("key 1");
    const back = stepOf(entry, step.state.job, (key) => Number(key.slice(4)));
    expect(back.state).toEqual(step.state);
    // A new page counts its gestures anew, so an old one must not be taken for one of them.
    expect(back.gesture).not.toBe(step.gesture);
  });
});
