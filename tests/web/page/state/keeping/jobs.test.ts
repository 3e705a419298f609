import { expect, it, vi } from "vitest";
import type { Job } from "../../../../../web/src/contract/types";
import { openNew } from "../../../../../web/src/page/state/keeping/jobs";
import { NO_PICTURE } from "../../../../../web/src/page/state/work/pictures";
import { add, step } from "../../../../../web/src/page/state/work/run";
import { job } from "../../../../../web/src/page/state/work/work";
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

it("leads back to the job before by undo, where the browser keeps none", async () => {
  await add({ kind: "load", work: { job: JOB, picture: NO_PICTURE, demo: false }, label: "" });
  const other = { ...JOB, name: "Dune" };
  expect(await openNew({ job: other, picture: NO_PICTURE, demo: false }, "a new job")).toBe(true);
  expect(job.value?.name).toBe("Dune");
  await step("undo");
  expect(job.value).toEqual(JOB);
});
