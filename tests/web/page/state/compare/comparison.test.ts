import { beforeEach, describe, expect, it, vi } from "vitest";
import type {
  Buffer as Sent,
  CompareParams,
  CompareReply,
  Job,
  ShowReply,
  Variant,
} from "../../../../../web/src/contract/types";
import { BARS, JOB, LAYOUT } from "../../jobs";

/** A core that answers at once, and remembers what it was asked. */
const core = vi.hoisted(() => ({
  asked: [] as { method: string; params: unknown }[],
  refusing: undefined as Error | undefined,
  /** It never answers a comparison. */
  holding: false,
}));

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  getCore: () => ({
    call: (method: string, params: unknown) => {
      core.asked.push({ method, params });
      return answer(method, params);
    },
  }),
  onRestart: () => {},
}));
vi.stubGlobal("ImageData", class {});
vi.stubGlobal("matchMedia", () => ({
  matches: false,
  addEventListener: () => undefined,
}));
vi.stubGlobal("localStorage", {
  getItem: () => null,
  setItem: () => undefined,
});
vi.stubGlobal("document", { documentElement: { dataset: {} } });

const BOX = { left: 0, top: 0, right: 1, bottom: 1 };
const bytes = (place: number): Sent => ({
  place,
  shape: [1, 1, 4],
  dtype: "uint8",
  state: "srgb_encoded",
});

function answer(method: string, params: unknown): Promise<{ reply: unknown; buffers: ArrayBuffer[] }> {
  if (method === "open") return done({ info: { notes: [] }, thumbnail: bytes(0) }, [new ArrayBuffer(4)]);
  if (method === "profile") return done({ file: "illustrative-matte" }, []);
  if (method === "compare") {
    if (core.holding) return new Promise(() => {});
    if (core.refusing !== undefined) return Promise.reject(core.refusing);
    return done(compareReply((params as CompareParams).variants), [new ArrayBuffer(4), new ArrayBuffer(0)]);
  }
  const { job } = params as { job: Job };
  const reply: ShowReply = {
    job,
    layout: LAYOUT,
    bars: BARS,
    panels: [],
    worker_ms: 1,
  };
  return done(reply, []);
}

function done(reply: unknown, buffers: ArrayBuffer[]): Promise<{ reply: unknown; buffers: ArrayBuffer[] }> {
  return Promise.resolve({ reply, buffers });
}

/** One texture and one fold for all. */
function compareReply(variants: readonly Variant[]): CompareReply {
  const none = (dtype: Sent["dtype"], state: Sent["state"]): Sent => ({
    place: 1,
    shape: [0],
    dtype,
    state,
  });
  return {
    textures: [{ pixels: bytes(0), face: BOX, inked: BOX }],
    folds: [
      {
        stages: [],
        bulk: [],
        at: [0, 1],
        positions: none("float32", "mm"),
        uv: none("float32", "mm"),
        triangles: none("uint32", "index"),
        outlines: none("uint32", "index"),
        crease_count: 0,
        notes: [],
      },
    ],
    looks: [],
    variants: variants.map(({ label, job }) => ({
      label,
      job,
      layout: LAYOUT,
      lost_share: 0.2,
      weight_g: 44,
      whole_g: [268.2, 598.9],
      outside_share: 0.1,
      panels: [{ number: 1, centre_mm: [0, 0], top_px: 0, bottom_px: 1 }],
      texture: 0,
      inked: BOX,
      fold: 0,
      look: 0,
    })),
  };
}

/** Fresh modules, with a job shown and comparisons watched. */
async function atWork() {
  vi.resetModules();
  core.asked = [];
  core.refusing = undefined;
  core.holding = false;
  const [comparison, run, work, pictures, edit, marks, errors] = await Promise.all([
    import("../../../../../web/src/page/state/compare/comparison"),
    import("../../../../../web/src/page/state/work/run"),
    import("../../../../../web/src/page/state/work/work"),
    import("../../../../../web/src/page/state/work/pictures"),
    import("../../../../../web/src/page/state/work/edit"),
    import("../../../../../web/src/page/state/page/status"),
    import("../../../../../web/src/worker/errors"),
  ]);
  marks.firstShown.value = true;
  comparison.startComparisonQueries();
  const picture = pictures.keepPicture({
    name: "tide.jpg",
    blob: new Blob(["x"]),
    sha256: "",
  });
  await run.add({
    kind: "load",
    work: { job: JOB, picture, demo: false },
    label: "",
  });
  const questions = () =>
    core.asked.filter(({ method }) => method === "compare").map(({ params }) => params as CompareParams);
  return { comparison, run, work, edit, marks, errors, questions };
}

const DEPTHS = { kind: "depth", values: [18, 38, 50] } as const;

describe("variants side by side", () => {
  let on: Awaited<ReturnType<typeof atWork>>;
  beforeEach(async () => {
    on = await atWork();
  });
  const shown = (count: number) => vi.waitFor(() => expect(on.comparison.compared.value?.panes.length).toBe(count));

  it("are asked for once, and hang in panes that share what is the same", async () => {
    on.marks.announce("The face is 350 × 233 mm.");
    on.comparison.compare(DEPTHS);
    // Of one canvas, and it would lie over the panes.
    expect(on.marks.announcement.value).toBe("");
    await shown(3);
    expect(on.questions()).toHaveLength(1);
    expect(on.questions()[0]?.variants.map(({ label, job }) => [label, job.bars.depth_mm])).toEqual([
      ["18 mm", 18],
      ["38 mm", 38],
      ["50 mm", 50],
    ]);
    const panes = on.comparison.comparison.value ?? [];
    expect(new Set(panes.map((pane) => pane.pieces[0]?.texture)).size).toBe(1);
    expect(new Set(panes.map((pane) => pane.pieces[0]?.fold)).size).toBe(1);
    expect(panes.map((pane) => pane.pieces[0]?.sizes.depthMm)).toEqual([18, 38, 50]);
    expect(on.comparison.outdated.value).toBe(false);
  });

  it("are compared anew when the job has changed, not when its words have", async () => {
    on.comparison.compare(DEPTHS);
    await shown(3);
    await on.run.propose({
      field: "name",
      label: "name",
      change: on.edit.setText({ name: "High tide" }),
    });
    // Longer than the pause before a question that is not urgent.
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(on.questions()).toHaveLength(1);
    expect(on.comparison.outdated.value).toBe(false);
    await on.run.propose({
      field: "face.width_mm",
      label: "face",
      change: on.edit.setFace({ width_mm: 300 }),
    });
    expect(on.comparison.outdated.value).toBe(true);
    await vi.waitFor(() => expect(on.comparison.outdated.value).toBe(false));
    expect(on.questions()).toHaveLength(2);
    expect(on.questions()[1]?.variants.every(({ job }) => job.face.width_mm === 300)).toBe(true);
    expect(on.comparison.variantsOnStage.value.map(({ job }) => job.name)).toEqual(Array(3).fill("High tide"));
  });

  it("are not on their way any more once the change that asked for them is taken back", async () => {
    on.comparison.compare(DEPTHS);
    await shown(3);
    core.holding = true;
    await on.run.propose({ field: "face.width_mm", label: "face", change: on.edit.setFace({ width_mm: 300 }) });
    await vi.waitFor(() => expect(on.comparison.comparing.value).toBeDefined());
    await on.run.step("undo");
    await vi.waitFor(() => expect(on.comparison.outdated.value).toBe(false));
    expect(on.comparison.comparing.value).toBeUndefined();
  });

  it("end with the one that is kept: one step, which undo takes back", async () => {
    on.comparison.compare(DEPTHS);
    await shown(3);
    const [, , deep] = on.comparison.choices.value;
    if (deep === undefined) throw new Error("three choices were shown");
    await on.comparison.keepChoice(deep);
    expect(on.work.job.value?.bars.depth_mm).toBe(50);
    expect(on.comparison.comparison.value).toBeUndefined();
    expect(on.work.toUndo.value).toContain("bar depth");
    await on.run.step("undo");
    expect(on.work.job.value).toEqual(JOB);
    expect(on.questions()).toHaveLength(1);
  });

  it("leave the wall when they are ended, and nothing of them is kept", async () => {
    on.comparison.compare(DEPTHS);
    await shown(3);
    on.comparison.endComparison();
    expect(on.comparison.compared.value).toBeUndefined();
    expect(on.comparison.variantsOnStage.value).toEqual([]);
    on.comparison.compare(DEPTHS);
    await shown(3);
    expect(on.questions()).toHaveLength(2);
  });

  it("say in the core's words why they cannot be compared", async () => {
    core.refusing = new on.errors.CoreError({
      code: "field",
      field: "bars.depth_mm",
      expected: "variants that differ",
      got: "18 mm",
      remedy: "name each of them once",
      values: {},
      message: "The variants must differ.",
    });
    on.comparison.compare({ kind: "depth", values: [18, 18] });
    await vi.waitFor(() => expect(on.comparison.refused.value?.message).toBe("The variants must differ."));
    expect(on.comparison.comparison.value).toBeUndefined();
    // Mended and asked again.
    core.refusing = undefined;
    on.comparison.compare(DEPTHS);
    await shown(3);
    expect(on.comparison.refused.value).toBeUndefined();
  });

  it("are not asked for when they are too few", () => {
    on.comparison.compare({ kind: "fill", values: ["run-on"] });
    expect(on.comparison.refused.value?.message).toContain("you gave 1.");
    expect(on.questions()).toHaveLength(0);
  });
});
