import { expect, it, vi } from "vitest";
import type { Job } from "../../../../../web/src/contract/types";
import { BARS, JOB, LAYOUT } from "../../jobs";

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  getCore: () => ({
    call: (_method: string, params: { readonly job?: Job }) =>
      Promise.resolve({
        reply: { job: params.job, layout: LAYOUT, bars: BARS, panels: [], worker_ms: 1 },
        buffers: [],
      }),
  }),
  onRestart: () => {},
  onForgotten: () => {},
}));

vi.stubGlobal("sessionStorage", { setItem: () => {}, removeItem: () => {} });
// Other tests may have loaded these before the stand-in was in place.
vi.resetModules();
const { openNew } = await import("../../../../../web/src/page/state/keeping/jobs");
const { NO_PICTURE } = await import("../../../../../web/src/page/state/work/pictures");
const { add, step } = await import("../../../../../web/src/page/state/work/run");
const { job } = await import("../../../../../web/src/page/state/work/work");

it("leads back to the job before by undo, where the browser keeps none", async () => {
  await add({ kind: "load", work: { job: JOB, picture: NO_PICTURE, demo: false }, label: "" });
  const other = { ...JOB, name: "Dune" };
  expect(await openNew({ job: other, picture: NO_PICTURE, demo: false }, "a new job")).toBe(true);
  expect(job.value?.name).toBe("Dune");
  await step("undo");
  expect(job.value).toEqual(JOB);
});
