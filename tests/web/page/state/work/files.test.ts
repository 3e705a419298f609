import { beforeEach, expect, it, vi } from "vitest";
import type { Job } from "../../../../../web/src/contract/types";
import { BARS, JOB, LAYOUT } from "../../jobs";

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  getCore: () => ({
    call: (method: string, params: { readonly job?: Job }) => {
      const thumbnail = { place: 0, shape: [1, 1, 4], dtype: "uint8", state: "srgb_encoded" };
      const opened = { info: { notes: [], width_px: 3, height_px: 2 }, thumbnail };
      const reply = method === "open" ? opened : { job: params.job, layout: LAYOUT, bars: BARS, panels: [] };
      return Promise.resolve({ reply, buffers: [new ArrayBuffer(4)] });
    },
  }),
  onRestart: () => {},
  onForgotten: () => {},
}));
vi.stubGlobal("ImageData", class {});
vi.stubGlobal("isSecureContext", true);
// Other tests may have loaded these before the stand-in was in place.
vi.resetModules();
const { fieldErrors } = await import("../../../../../web/src/page/state/page/fields");
const { announcement } = await import("../../../../../web/src/page/state/page/status");
const { openFile, openFiles } = await import("../../../../../web/src/page/state/work/files");
const { NO_PICTURE } = await import("../../../../../web/src/page/state/work/pictures");
const { add, whenSettled } = await import("../../../../../web/src/page/state/work/run");
const { busy, job } = await import("../../../../../web/src/page/state/work/work");

beforeEach(async () => {
  await add({ kind: "load", work: { job: JOB, picture: NO_PICTURE, demo: false }, label: "" });
  await add({ kind: "edit", edit: { field: "name", label: "", change: () => ({ ...JOB, picture: NO_NAME }) } });
});
const NO_NAME = { file: "", sha256: "", turn: 0, enlarging: "photograph" } as const;

/** A file whose bytes come when the test says so. */
function slowFile(name: string) {
  const file = new File([name], name, { type: "image/jpeg" });
  let come = (): void => {};
  const read = file.arrayBuffer.bind(file);
  file.arrayBuffer = () => new Promise((resolve) => (come = () => resolve(read())));
  return { file, come: () => come() };
}

it("says from the first moment that a picture is read, and the one that was chosen last stays", async () => {
  const large = slowFile("large.tif");
  const first = openFile(large.file);
  expect(busy.value).toBe("Reading large.tif");
  await openFile(new File(["x"], "small.jpg", { type: "image/jpeg" }));
  large.come();
  await first;
  await whenSettled();
  expect(job.value?.picture.file).toBe("small.jpg");
  expect(busy.value).toBe("");
});

it("names a file that cannot be read, and is at work no more", async () => {
  const folder = new File([], "holiday");
  folder.arrayBuffer = () => Promise.reject(new DOMException("not found", "NotFoundError"));
  await openFile(folder);
  expect(fieldErrors.value["picture.file"]?.message).toMatch(/^holiday cannot be read/);
  expect(fieldErrors.value["picture.file"]?.kept).toBe("The job is as it was.");
  expect(busy.value).toBe("");
});

it("opens one picture of several, and names the others after what was said of it", async () => {
  await openFiles(["tide.jpg", "dune.jpg"].map((name) => new File([name], name, { type: "image/jpeg" })));
  expect(job.value?.picture.file).toBe("tide.jpg");
  expect(announcement.value).toBe("Not opened: dune.jpg. A job has one picture and one canvas profile.");
});
