import { expect, it, vi } from "vitest";
import type { Job, ShowReply } from "../../../../../web/src/contract/types";
import { BARS, JOB, LAYOUT } from "../../jobs";

/** A core that remembers what it was asked about which picture; a print file waits until the test lets it go. */
const core = vi.hoisted(() => ({
  open: "",
  asked: [] as string[],
  print: (): void => {},
}));

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  onRestart: () => {},
  getCore: () => ({
    call: async (method: string, params: { file?: string; job: Job }) => {
      if (method === "open") core.open = params.file ?? "";
      else core.asked.push(`${method} ${core.open}`);
      return answer(method, params.job);
    },
  }),
}));
vi.mock("../../../../../web/src/page/state/work/files", () => ({ download: () => {} }));
vi.stubGlobal("ImageData", class {});

async function answer(method: string, job: Job): Promise<unknown> {
  if (method === "open") {
    const thumbnail = { place: 0, shape: [1, 1, 4], dtype: "uint8", state: "srgb_encoded" };
    return { reply: { info: { notes: [] }, thumbnail }, buffers: [new ArrayBuffer(4)] };
  }
  if (method === "print") {
    await new Promise<void>((resolve) => (core.print = resolve));
    return { reply: { report: { file: "a.tif" }, parts: [] }, buffers: [] };
  }
  const reply: ShowReply = { job, layout: LAYOUT, bars: BARS, panels: [], worker_ms: 1 };
  return { reply, buffers: [] };
}

vi.resetModules();
const [run, pictures, output] = await Promise.all([
  import("../../../../../web/src/page/state/work/run"),
  import("../../../../../web/src/page/state/work/pictures"),
  import("../../../../../web/src/page/state/output/print_files"),
]);

it("makes every panel of the picture that was there when the files were asked for", async () => {
  const [tide, dune] = ["tide.jpg", "dune.jpg"].map((name) =>
    pictures.keepPicture({ name, blob: new Blob([name]), sha256: "" }),
  );
  const show = (picture = 0) =>
    run.add({ kind: "load", work: { job: JOB, picture, demo: false }, label: "opening a job" });
  await show(tide);
  const files = output.writeFiles("tiff", [1, 2]);
  const printed = (count: number) =>
    vi.waitFor(() => expect(core.asked.filter((one) => one.startsWith("print"))).toHaveLength(count));
  await printed(1);
  await show(dune);
  core.print();
  await printed(2);
  core.print();
  await files;
  await run.propose({ field: "name", label: "name", change: (job) => ({ ...job, name: "Dune" }) });
  expect(core.asked).toEqual(["show tide.jpg", "print tide.jpg", "show dune.jpg", "print tide.jpg", "show dune.jpg"]);
});
