import { describe, expect, it } from "vitest";
import { advance, settle } from "../../../../web/src/page/state/advance";
import { setBars, setFace } from "../../../../web/src/page/state/edit";
import { begin } from "../../../../web/src/page/state/history";
import type { Task } from "../../../../web/src/page/state/queue";
import type { Work } from "../../../../web/src/page/state/work";
import { JOB } from "../jobs";

const WORK: Work = { job: JOB, picture: 1, demo: true };
const deeper = (depth_mm: number, group?: string): Task => ({
  kind: "edit",
  edit: {
    field: "bars.depth_mm",
    label: "bar depth",
    change: setBars({ depth_mm }),
    ...(group === undefined ? {} : { group }),
  },
});
const wider: Task = {
  kind: "edit",
  edit: { field: "face.width_mm", label: "face width", change: setFace({ width_mm: 300 }) },
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
      bars: { depth_mm: 38 },
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

  it("never changes the history it was given", () => {
    const before = begin(WORK);
    advance(before, [deeper(50)]);
    expect(before.present.state.job.bars.depth_mm).toBe(20);
  });

  it("undoes another picture with its job", () => {
    const other: Work = { job: { ...JOB, picture: { file: "dune.png", turn: 0, enlarging: "photograph" } }, picture: 2, demo: false };
    const after = advance(begin(WORK), [
      { kind: "picture", picture: 2, label: "opening dune.png", change: () => other },
    ]);
    expect(after?.present.state).toEqual(other);
    expect(advance(after, [{ kind: "undo" }])?.present.state).toEqual(WORK);
  });

  it("adds no step when the same work is shown anew after a crash", () => {
    const before = begin(WORK);
    expect(advance(before, [{ kind: "load", work: WORK, label: "", fresh: true }])).toBe(before);
  });

  it("keeps the job as the core has checked it", () => {
    const checked = { ...JOB, name: "As checked" };
    expect(settle(begin(WORK), checked).present.state).toEqual({ ...WORK, job: checked });
  });
});
