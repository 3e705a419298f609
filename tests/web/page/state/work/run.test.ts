import { beforeEach, describe, expect, it, vi } from "vitest";
import german from "../../../../../pycore/speech/data/de.json";
import type { ErrorReply, Job, ShowReply } from "../../../../../web/src/contract/types";
import type { Work } from "../../../../../web/src/page/state/work/work";
import type { CoreError } from "../../../../../web/src/worker/errors";
import { BARS, JOB, LAYOUT } from "../../jobs";

/** A core that answers as it is told, and remembers what it was asked. */
const core = vi.hoisted(() => ({
  asked: [] as { method: string; params: unknown }[],
  restart: (): void => {},
  answer: (_method: string, _params: unknown): Promise<{ reply: unknown; buffers: ArrayBuffer[] }> =>
    Promise.reject(new Error("unset")),
}));

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  getCore: () => ({
    call: (method: string, params: unknown) => {
      core.asked.push({ method, params });
      return core.answer(method, params);
    },
  }),
  onRestart: (listener: () => void) => {
    core.restart = listener;
  },
}));
vi.stubGlobal("ImageData", class {});

// The modules are fresh for each test, and with them the class that its errors must be of.
let Failure: typeof CoreError;
const said = (part: Partial<ErrorReply>): CoreError =>
  new Failure({
    code: "field",
    field: "",
    expected: "less",
    got: "more",
    remedy: "mend it",
    values: {},
    message: "",
    ...part,
  });

const jobOf = (params: unknown): Job => (params as { job: Job }).job;
const sees = (ok: (job: Job) => CoreError | undefined) => (method: string, params: unknown) => {
  if (method === "open") {
    const thumbnail = {
      place: 0,
      shape: [1, 1, 4],
      dtype: "uint8",
      state: "srgb_encoded",
    };
    return Promise.resolve({
      reply: { info: { notes: [] }, thumbnail },
      buffers: [new ArrayBuffer(4)],
    });
  }
  const wrong = ok(jobOf(params));
  if (wrong !== undefined) return Promise.reject(wrong);
  const reply: ShowReply = {
    job: jobOf(params),
    layout: LAYOUT,
    bars: BARS,
    panels: [],
    worker_ms: 1,
  };
  return Promise.resolve({ reply, buffers: [] });
};

const withDune =
  (picture: number) =>
  ({ job }: Work): Work => ({
    job: {
      ...job,
      picture: {
        file: "dune.png",
        sha256: "",
        turn: 0,
        enlarging: "photograph",
      },
    },
    picture,
    demo: false,
  });

/** Fresh modules, with a job shown. */
async function atWork() {
  vi.resetModules();
  core.asked = [];
  Failure = (await import("../../../../../web/src/worker/errors")).CoreError;
  const [run, work, messages, pictures, edit] = await Promise.all([
    import("../../../../../web/src/page/state/work/run"),
    import("../../../../../web/src/page/state/work/work"),
    import("../../../../../web/src/page/state/page/fields"),
    import("../../../../../web/src/page/state/work/pictures"),
    import("../../../../../web/src/page/state/work/edit"),
  ]);
  const picture = pictures.keepPicture({
    name: "tide.jpg",
    blob: new Blob(["x"]),
    sha256: "",
  });
  core.answer = sees(() => undefined);
  await run.add({
    kind: "load",
    work: { job: JOB, picture, demo: false },
    label: "",
  });
  const depth = (depth_mm: number, gesture?: string) => ({
    field: "bars.depth_mm",
    label: "bar depth",
    change: edit.setBars({ depth_mm }),
    ...(gesture === undefined ? {} : { gesture }),
  });
  const width = (width_mm: number) => ({
    field: "face.width_mm",
    label: "face width",
    change: edit.setFace({ width_mm }),
  });
  return { run, work, messages, pictures, depth, width };
}

const shows = () =>
  core.asked.filter(({ method }) => method === "show").map(({ params }) => jobOf(params).bars.depth_mm);

describe("candidates", () => {
  let bench: Awaited<ReturnType<typeof atWork>>;
  beforeEach(async () => {
    bench = await atWork();
  });

  it("become the job when the core has shown them, and can be undone", async () => {
    const { run, work, depth } = bench;
    await run.propose(depth(38));
    expect(work.job.value?.bars.depth_mm).toBe(38);
    await run.step("undo");
    expect(work.job.value?.bars.depth_mm).toBe(20);
    await run.step("redo");
    expect(work.job.value?.bars.depth_mm).toBe(38);
  });

  it("are said to be at work in the page's language", async () => {
    const { run, work, depth } = bench;
    (await import("../../../../../web/src/speech/say")).speak("de", german);
    const shown = sees(() => undefined);
    let busy = "";
    core.answer = (method, params) => {
      busy = work.busy.value;
      return shown(method, params);
    };
    await run.propose(depth(38));
    expect(busy).toBe("In Arbeit");
  });

  it("leave the job as it was when refused, with the core's words beside the field", async () => {
    const { run, work, messages, depth } = bench;
    core.answer = sees((job) =>
      job.bars.depth_mm > 100 ? said({ field: "bars.depth_mm", message: "Too deep." }) : undefined,
    );
    await run.propose(depth(900));
    expect(work.job.value).toEqual(JOB);
    expect(work.toUndo.value).toBeUndefined();
    expect(messages.fieldErrors.value).toEqual({
      "bars.depth_mm": {
        field: "bars.depth_mm",
        message: "Too deep.",
        remedy: "mend it",
      },
    });
    await run.propose(depth(30));
    expect(messages.fieldErrors.value).toEqual({});
  });

  it("are refused aloud where undo has dropped what was typed meanwhile", async () => {
    const { run, work, messages, depth, width } = bench;
    const { announcement } = await import("../../../../../web/src/page/state/page/status");
    await run.propose(width(250));
    core.answer = sees((job) => (job.bars.depth_mm > 100 ? said({ message: "Too deep." }) : undefined));
    void run.propose(depth(900));
    await run.step("undo");
    expect(messages.fieldErrors.value).toEqual({});
    expect(announcement.value).toBe("Too deep. Mend it.");
    expect(work.job.value).toEqual(JOB);
  });

  it("go out once while one is under way, and then only the newest of a gesture", async () => {
    const { run, depth } = bench;
    await Promise.all([21, 22, 23, 24].map((mm) => run.propose(depth(mm, "drag#1"))));
    // The first was under way at once; of the three that waited the last was sent.
    expect(shows()).toEqual([20, 21, 24]);
    await run.step("undo");
    expect(shows().at(-1)).toBe(20);
  });

  it("keep the earlier steps that come from the browser's storage while one is under way", async () => {
    const { run, work, depth } = bench;
    const going = run.propose(depth(38));
    const now = work.history.value;
    if (now === undefined) throw new Error("a job is shown");
    work.history.value = {
      ...now,
      past: [{ ...now.present, label: "of an earlier visit" }],
    };
    await going;
    expect(work.job.value?.bars.depth_mm).toBe(38);
    expect(work.history.value.past.map(({ label }) => label)).toEqual(["of an earlier visit", now.present.label]);
  });

  it("are tried one by one when several fail together, and only the wrong one is lost", async () => {
    const { run, work, messages, depth, width } = bench;
    core.answer = sees((job) => (job.bars.depth_mm > 100 ? said({ field: "bars.depth_mm" }) : undefined));
    await Promise.all([run.propose(width(211)), run.propose(depth(900)), run.propose(width(250))]);
    expect(work.job.value?.face.width_mm).toBe(250);
    expect(work.job.value?.bars.depth_mm).toBe(20);
    expect(Object.keys(messages.fieldErrors.value)).toEqual(["bars.depth_mm"]);
  });

  it("with another picture open it first, and bring the former one back when the job is refused", async () => {
    const { run, work, messages, pictures } = bench;
    const other = pictures.keepPicture({
      name: "dune.png",
      blob: new Blob(["y"]),
      sha256: "",
    });
    core.answer = sees((job) =>
      job.picture.file === "dune.png" ? said({ code: "geometry", field: "sides.fill" }) : undefined,
    );
    await run.add({
      kind: "picture",
      label: "opening dune.png",
      change: withDune(other),
    });
    expect(work.job.value).toEqual(JOB);
    expect(messages.fieldErrors.value["picture.file"]?.field).toBe("sides.fill");
    core.asked = [];
    await run.openInCore(work.work.value?.picture ?? 0);
    expect(core.asked).toEqual([{ method: "open", params: { file: "tide.jpg" } }]);
  });

  it("come with a face of the picture's shape where none was set, as one step", async () => {
    const { run, work, pictures, depth } = bench;
    const { announcement } = await import("../../../../../web/src/page/state/page/status");
    const other = pictures.keepPicture({
      name: "dune.png",
      blob: new Blob(["y"]),
      sha256: "",
    });
    const answer = sees(() => undefined);
    core.answer = (method, params) =>
      method === "propose_face"
        ? Promise.resolve({
            reply: {
              face: {
                width_mm: 350,
                height_mm: 233,
                cropped_share: 0,
                crops: false,
                turned: true,
              },
            },
            buffers: [],
          })
        : answer(method, params);
    await run.add({
      kind: "picture",
      label: "opening dune.png",
      change: withDune(other),
      proposes: () => true,
    });
    expect(work.work.value).toMatchObject({
      job: { face: { width_mm: 350, height_mm: 233 } },
      proposed: { width_mm: 350, height_mm: 233 },
    });
    expect(announcement.value).toMatch("The face is 350");
    // What it says of the face, and of undoing it, would be wrong after this.
    await run.propose(depth(38));
    expect(announcement.value).toBe("");
    await run.step("undo");
    await run.step("undo");
    expect(work.job.value).toEqual(JOB);
    expect(work.toUndo.value).toBeUndefined();
    await run.proposeAndAnnounce(depth(38), "38 mm kept. Undo takes it back.");
    expect(announcement.value).toMatch("38 mm kept");
    await run.step("undo");
    expect(announcement.value).toBe("");
  });

  it("with a newer file of the picture keep its crop and its face, and say so; of another size they do not", async () => {
    const { run, work, pictures } = bench;
    const { announcement } = await import("../../../../../web/src/page/state/page/status");
    const { withPicture } = await import("../../../../../web/src/page/state/work/picture_job");
    const crop = { x: 0, y: 0, width: 0.5, height: 0.5 };
    const answer = sees(() => undefined);
    let size = { width_px: 90, height_px: 60 };
    core.answer = async (method, params) => {
      if (method === "propose_face") return { reply: {}, buffers: [] };
      const told = (await answer(method, params)) as {
        reply: object;
        buffers: ArrayBuffer[];
      };
      return method === "open" ? { ...told, reply: { ...told.reply, info: { notes: [], ...size } } } : told;
    };
    const open = (sha256: string) => {
      const file = { name: "tide.jpg", blob: new Blob([sha256]), sha256 };
      const picture = pictures.keepPicture(file);
      return run.add({
        kind: "picture",
        label: "opening tide.jpg",
        change: (now) => withPicture(now, file, picture, undefined),
        proposes: () => true,
      });
    };
    await open("aa");
    await run.propose({
      field: "picture.crop",
      label: "the crop",
      change: (job) => ({ ...job, picture: { ...job.picture, crop } }),
    });
    core.asked = [];
    await open("bb");
    expect(work.job.value?.picture).toMatchObject({ sha256: "bb", crop });
    expect(announcement.value).toMatch("the job keeps the crop");
    expect(core.asked.map(({ method }) => method)).toEqual(["open", "show"]);
    size = { width_px: 80, height_px: 60 };
    await open("cc");
    expect(work.job.value?.picture.crop).toBeUndefined();
    expect(announcement.value).toMatch("so the job drops the crop of the former one. Undo takes it back.");
    await run.step("undo");
    expect(work.job.value?.picture).toMatchObject({ sha256: "bb", crop });
  });

  it("without a picture close the core's, so that nothing is made of another one", async () => {
    const { run, work } = bench;
    core.asked = [];
    await run.add({
      kind: "load",
      work: { job: JOB, picture: 0, demo: false },
      label: "opening a job",
    });
    expect(core.asked.map(({ method }) => method)).toEqual(["close", "show"]);
    expect(work.lacksPicture.value).toBe(true);
    expect(work.picture.value).toBeUndefined();
    await run.step("undo");
    expect(work.lacksPicture.value).toBe(false);
    expect(core.asked.map(({ method }) => method)).toEqual(["close", "show", "open", "show"]);
  });

  it("of another job leave no message about the one before", async () => {
    const { run, messages, depth, work } = bench;
    core.answer = sees((job) => (job.bars.depth_mm > 100 ? said({ field: "bars.depth_mm" }) : undefined));
    await run.propose(depth(900));
    messages.setFieldError("face.width_mm", {
      field: "face.width_mm",
      message: "Typed wrong.",
      remedy: "",
    });
    const picture = work.work.value?.picture ?? 0;
    await run.add({
      kind: "load",
      work: { job: { ...JOB, name: "Other" }, picture, demo: false },
      label: "opening a job",
    });
    expect(messages.fieldErrors.value).toEqual({});
  });

  it("outlive the core: after its death picture and job are shown anew, in full", async () => {
    const { run, work, depth } = bench;
    await run.propose(depth(38));
    core.asked = [];
    core.restart();
    await run.whenSettled();
    expect(core.asked.map(({ method }) => method)).toEqual(["open", "show"]);
    expect(core.asked[1]?.params).toMatchObject({
      fresh: true,
      job: { bars: { depth_mm: 38 } },
    });
    expect(work.job.value?.bars.depth_mm).toBe(38);
    expect(work.history.value?.past.length).toBe(1);
  });

  it("offered aloud are told of, whether they were taken or refused", async () => {
    const { run, depth } = bench;
    const status = await import("../../../../../web/src/page/state/page/status");
    const told: (string | undefined)[] = [];
    const tell = vi.spyOn(status, "announce").mockImplementation((text) => told.push(text));
    await run.proposeAndAnnounce(depth(38), "Taken.");
    core.answer = sees(() => said({ field: "bars.depth_mm", message: "Too deep." }));
    await run.proposeAndAnnounce(depth(900), "Taken.");
    tell.mockRestore();
    expect(told).toEqual(["Taken.", "Too deep. Mend it."]);
  });

  it("leave each picture in the core to those who have asked for it, one after another", async () => {
    const { run, work, pictures } = bench;
    const other = pictures.keepPicture({
      name: "dune.png",
      blob: new Blob(["y"]),
      sha256: "",
    });
    const own = work.work.value?.picture ?? 0;
    core.asked = [];
    await Promise.all([run.openInCore(other), run.openInCore(own)]);
    expect(core.asked.map(({ params }) => params)).toEqual([{ file: "dune.png" }, { file: "tide.jpg" }]);
  });

  it("bring another picture in one piece: nobody opens the former one before it is shown", async () => {
    const { run, pictures, work } = bench;
    const other = pictures.keepPicture({ name: "dune.png", blob: new Blob(["y"]), sha256: "" });
    const own = work.work.value?.picture ?? 0;
    const stop = new AbortController();
    core.asked = [];
    const brought = run.add({ kind: "picture", label: "opening dune.png", change: withDune(other) });
    const former = run.callAbout(own, "edges", { job: JOB }, { signal: stop.signal });
    const refused = former.then(
      () => "asked",
      () => "let go",
    );
    // The question of the former picture is dropped once the other one is shown.
    const end = work.picture.subscribe((now) => {
      if (now?.id === other) stop.abort();
    });
    await brought;
    expect(await refused).toBe("let go");
    end();
    expect(core.asked.map(({ method, params }) => [method, (params as { file?: string }).file])).toEqual([
      ["open", "dune.png"],
      ["show", undefined],
    ]);
  });

  it("that wait are shown before a file is made of the work", async () => {
    const { run, work, depth } = bench;
    void run.propose(depth(38));
    const now = await run.settledWork();
    expect(now).toBe(work.work.value);
    expect(now?.job.bars.depth_mm).toBe(38);
    expect(core.asked.map(({ method }) => method)).toEqual(["open", "show", "show"]);
  });

  it("stop asking a core that dies each time", async () => {
    const { run, depth } = bench;
    const status = await import("../../../../../web/src/page/state/page/status");
    core.answer = () => Promise.reject(said({ code: "crash", got: "it fell" }));
    for (let time = 0; time < 3; time++) await run.propose(depth(30 + time));
    expect(status.loading.value).toEqual({
      state: "failed",
      got: "it fell",
      remedy: "mend it",
    });
  });
});
