import { describe, expect, it, vi } from "vitest";
import type { Job } from "../../../../../web/src/contract/types";
import type { Stage } from "../../../../../web/src/stage/types";
import { JOB } from "../../jobs";

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  onRestart: () => {},
  getCore: () => ({
    call: () => Promise.resolve({ reply: { report: { file: "turn.webp" }, parts: [] }, buffers: [] }),
  }),
}));
vi.mock("../../../../../web/src/page/state/work/files", () => ({ download: () => {} }));

vi.resetModules();
const { frameMs, makeTurntable, turnFrames, turnSize, turntable, withoutAlpha } =
  await import("../../../../../web/src/page/state/output/turntable");
const { mountedStage } = await import("../../../../../web/src/page/state/page/view");
const { history } = await import("../../../../../web/src/page/state/work/work");
const { begin } = await import("../../../../../web/src/page/state/work/history");
const { setBars, setText } = await import("../../../../../web/src/page/state/work/edit");

describe("withoutAlpha", () => {
  it("keeps red, green and blue and begins where it is told", () => {
    const out = new Uint8Array(9).fill(9);
    withoutAlpha(new Uint8Array([1, 2, 3, 255, 4, 5, 6, 255]), out, 3);
    expect([...out]).toEqual([9, 9, 9, 1, 2, 3, 4, 5, 6]);
  });
});

describe("frameMs", () => {
  // derived: 4 s in 36 frames are 111.1 ms; the core takes 20 to 1000 ms.
  it.each([
    [4, 36, 111],
    [1, 72, 20],
    [60, 24, 1000],
  ])("%d s in %d frames", (seconds, frames, ms) => {
    expect(frameMs(seconds, frames)).toBe(ms);
  });
});

describe("a turntable", () => {
  const drawn = async (act: () => void): Promise<unknown> => {
    const frame = vi.fn<Stage["frame"]>((width, height) => {
      if (frame.mock.calls.length === 5) act();
      return Promise.resolve(new Uint8Array(width * height * 4));
    });
    mountedStage.value = { frame } as Partial<Stage> as Stage;
    turnFrames.value = 24;
    turnSize.value = 320;
    history.value = begin({ job: JOB, picture: 1, demo: false }, "");
    await makeTurntable();
    return turntable.now.value;
  };

  it("is made of one job, or not at all", async () => {
    expect(await drawn(() => {})).toMatchObject({ state: "made" });
    const become = (job: Job) => drawn(() => (history.value = begin({ job, picture: 1, demo: false }, "")));
    expect(await become(setText({ notes: "Nothing of it is drawn." })(JOB))).toMatchObject({ state: "made" });
    expect(await become(setBars({ depth_mm: 50 })(JOB))).toMatchObject({
      state: "failed",
      message: { message: "The job has changed while the frames were drawn, so nothing was saved." },
    });
  });
});
