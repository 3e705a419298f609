import { beforeEach, expect, it, vi } from "vitest";
import type { Buffer as Sent, ChoicesParams, ChoicesReply } from "../../../../../web/src/contract/types";
import { CoreError } from "../../../../../web/src/worker/errors";
import { BARS, JOB, LAYOUT } from "../../jobs";

/** A core whose answers wait until they are let go. */
const core = vi.hoisted(() => ({
  asked: [] as {
    method: string;
    kind: string | undefined;
    fills: readonly string[];
    side: string | undefined;
    stopped: () => boolean;
    go: () => void;
    fail: () => void;
  }[],
}));

vi.mock("../../../../../web/src/page/state/work/run", () => ({
  callAbout: (_: number, method: string, params: ChoicesParams, { signal }: { signal: AbortSignal }) =>
    new Promise((resolve, reject) => {
      core.asked.push({
        method,
        kind: params.kind,
        fills: params.fills,
        side: params.side,
        stopped: () => signal.aborted,
        go: () => resolve(method === "detail" ? DETAIL : reply(params)),
        fail: () =>
          reject(
            new CoreError({
              ...REFUSAL,
              values: {},
              code: "profile",
              expected: "a",
              got: "b",
            }),
          ),
      });
      signal.addEventListener("abort", () => reject(new Error("stopped")));
    }),
}));
vi.mock("../../../../../web/src/page/state/core/queries", async () => {
  const { QueryQueue } = await import("../../../../../web/src/page/state/core/query_queue");
  return {
    queryQueue: new QueryQueue(() => Promise.resolve()),
  };
});
vi.mock("../../../../../web/src/page/state/colour/profiles", () => ({
  openProfileInCore: () => Promise.resolve(),
  profilesKept: { value: 0 },
}));
vi.mock("../../../../../web/src/page/state/colour/viewing", () => ({
  viewing: { value: "black" },
}));
vi.stubGlobal(
  "ImageData",
  class {
    constructor(
      readonly data: Uint8ClampedArray,
      readonly width: number,
      readonly height: number,
    ) {}
  },
);
vi.stubGlobal("devicePixelRatio", 1);
vi.stubGlobal("document", { documentElement: { dataset: {} } });

const REFUSAL = { field: "colour.profile", message: "No.", remedy: "c" };

const ONE_PIXEL: Sent = {
  place: 0,
  shape: [1, 1, 4],
  dtype: "uint8",
  state: "srgb_encoded",
};
const DETAIL = {
  reply: { plain: ONE_PIXEL, sharpened: ONE_PIXEL },
  buffers: [new ArrayBuffer(4)],
};

function reply({ kind, fills }: ChoicesParams): {
  reply: ChoicesReply;
  buffers: ArrayBuffer[];
} {
  const picture: Sent = {
    place: 0,
    shape: [1, 1, 4],
    dtype: "uint8",
    state: "srgb_encoded",
  };
  const none: ChoicesReply = { fills: [], finishes: [], intents: [] };
  const buffers = [new ArrayBuffer(4)];
  if (kind === "fills") {
    const options = fills.map((fill) => ({
      fill,
      picture,
      cut_away_share: 0,
      run_on_share: 0,
    }));
    return { reply: { ...none, fills: options }, buffers };
  }
  if (kind === "finishes")
    return {
      reply: { ...none, finishes: [{ finish: "tucked", bulk: [] }] },
      buffers,
    };
  const figures = { mean_de: 1, p95_de: 2, flattened_share: 0 };
  return {
    reply: { ...none, intents: [{ intent: "relative", picture, ...figures }] },
    buffers,
  };
}

const { batch } = await import("@preact/signals");
const choices = await import("../../../../../web/src/page/state/choices/choices");
const { history, shown, waiting } = await import("../../../../../web/src/page/state/work/work");
const { firstShown } = await import("../../../../../web/src/page/state/page/status");
const { NO_PICTURE } = await import("../../../../../web/src/page/state/work/pictures");
const { begin } = await import("../../../../../web/src/page/state/work/history");
const { choicesSeen, fillPictures, finishesQuery, intentPicturesQuery, detailQuery } = choices;
const turn = () => new Promise((resolve) => setTimeout(resolve));
/** Longer than the calm that is waited for. */
const calm = () => new Promise((resolve) => setTimeout(resolve, 750));

let picture = 0;
choices.startChoiceQueries();

beforeEach(async () => {
  picture += 1;
  core.asked = [];
  batch(() => {
    for (const seen of Object.values(choicesSeen)) seen.value = false;
    for (const query of [finishesQuery, intentPicturesQuery, detailQuery]) query.stop();
    for (const { quick, continued, seen } of Object.values(fillPictures)) {
      seen.value = false;
      quick.stop();
      continued.stop();
    }
    waiting.value = 0;
    firstShown.value = true;
    history.value = begin({ job: JOB, picture, demo: false });
    shown.value = {
      sent: { job: JOB, layout: LAYOUT, bars: BARS, panels: [], worker_ms: 1 },
      layout: LAYOUT,
      bars: BARS,
      pictureEncoded: false,
      panels: [],
      foldNotes: [],
      bulk: [],
      worker_ms: 1,
    };
  });
  await calm();
});

it("asks for nothing that is not on the screen", async () => {
  await turn();
  expect(core.asked).toEqual([]);
});

it("asks for the quick fills first and for continued lines after them", async () => {
  fillPictures.all.seen.value = true;
  await turn();
  expect(core.asked.map(({ fills }) => fills)).toEqual([["run-on", "mirror", "drawn-out", "plain", "fade"]]);
  core.asked[0]?.go();
  await turn();
  await turn();
  expect(fillPictures.all.drawn.value.map(({ option }) => option.fill)).not.toContain("continued");
  expect(core.asked.at(-1)?.fills).toEqual(["continued"]);
  core.asked.at(-1)?.go();
  await turn();
  expect(fillPictures.all.drawn.value.map(({ option }) => option.fill).at(-1)).toBe("continued");
  expect(document.documentElement.dataset["choices"]).toBe("known");
});

it("draws a side's own fills by themselves, and nothing anew when one of them is chosen", async () => {
  const withOwn = (fill: "plain" | "fade") => ({
    ...JOB,
    sides: { ...JOB.sides, left: { fill } },
  });
  history.value = begin({ job: withOwn("plain"), picture, demo: false });
  await calm();
  fillPictures.left.seen.value = true;
  await turn();
  core.asked[0]?.go();
  await turn();
  await turn();
  core.asked[1]?.go();
  await turn();
  expect(core.asked.map(({ side }) => side)).toEqual(["left", "left"]);
  expect(fillPictures.left.drawn.value.length).toBe(6);
  history.value = begin({ job: withOwn("fade"), picture, demo: false });
  await calm();
  expect(core.asked.length).toBe(2);
  history.value = begin({
    job: {
      ...withOwn("fade"),
      sides: { ...JOB.sides, fill: "plain", left: { fill: "fade" } },
    },
    picture,
    demo: false,
  });
  await calm();
  expect(core.asked.length).toBe(3);
});

it("draws nothing of a job whose picture is not at hand", async () => {
  fillPictures.all.seen.value = true;
  history.value = begin({ job: JOB, picture: NO_PICTURE, demo: false });
  await calm();
  await turn();
  expect(core.asked.filter(({ stopped }) => !stopped())).toEqual([]);
});

it("stops drawing as soon as a change is on its way, and begins again after it", async () => {
  fillPictures.all.seen.value = true;
  await turn();
  waiting.value = 1;
  expect(core.asked[0]?.stopped()).toBe(true);
  await turn();
  expect(core.asked.length).toBe(1);
  waiting.value = 0;
  await turn();
  expect(core.asked.length).toBe(1);
  await calm();
  expect(core.asked.length).toBe(2);
});

it("draws nothing anew when an option is chosen, and says that a picture is stale when the canvas changed", async () => {
  choicesSeen.finishes.value = true;
  await turn();
  core.asked[0]?.go();
  await turn();
  expect(finishesQuery.fresh.value?.length).toBe(1);
  history.value = begin({
    job: { ...JOB, wrap: { ...JOB.wrap, finish: "lapped" } },
    picture,
    demo: false,
  });
  await calm();
  expect(core.asked.length).toBe(1);
  history.value = begin({
    job: { ...JOB, bars: { ...JOB.bars, depth_mm: 38 } },
    picture,
    demo: false,
  });
  await turn();
  // Stale at once, and drawn when it is calm.
  expect([finishesQuery.fresh.value, core.asked.length]).toEqual([undefined, 1]);
  await calm();
  expect(core.asked.length).toBe(2);
  expect([finishesQuery.fresh.value, finishesQuery.known.value?.value.length]).toEqual([undefined, 1]);
});

it("draws a part of the print file only while it is seen and something is sharpened", async () => {
  choicesSeen.detail.value = true;
  await turn();
  expect(core.asked).toEqual([]);
  history.value = begin({
    job: { ...JOB, print: { ...JOB.print, sharpening: 0.5 } },
    picture,
    demo: false,
  });
  await calm();
  expect(core.asked.map(({ method }) => method)).toEqual(["detail"]);
  core.asked[0]?.go();
  await turn();
  expect([detailQuery.fresh.value?.plain.width, detailQuery.fresh.value?.sharpened.width]).toEqual([1, 1]);
});

it("keeps what failed until it is asked for again", async () => {
  choicesSeen.intents.value = true;
  await turn();
  core.asked[0]?.fail();
  await turn();
  expect(intentPicturesQuery.failure.value).toEqual(REFUSAL);
  choices.drawAgain();
  await turn();
  expect(core.asked.length).toBe(2);
  core.asked[1]?.go();
  await turn();
  expect(intentPicturesQuery.failure.value).toBeUndefined();
  expect(intentPicturesQuery.fresh.value?.length).toBe(1);
});
