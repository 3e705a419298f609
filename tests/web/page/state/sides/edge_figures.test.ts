import { describe, expect, it } from "vitest";
import type { EdgesReport, Fill, Job, Note, Side, SideReport } from "../../../../../web/src/contract/types";
import {
  edgesKey,
  edgesSentence,
  figureShown,
  fillOf,
  moveCropOf,
  moveShown,
  reasonShown,
  sideOf,
  suitsShown,
  currentNotes,
  setSideFill,
} from "../../../../../web/src/page/state/sides/edge_figures";
import { JOB } from "../../jobs";

const side = (name: Side, better?: Fill): SideReport => ({
  side: name,
  fill: "mirror",
  busy: 0.1,
  doubled: 0.2,
  broken: better ? 0.9 : 0,
  cut: 0,
  chevrons: 0,
  repeated: 0,
  smeared: 0,
  bent: 0,
  severed: 0,
  streaked: 0,
  mirrored: false,
  fault: better ? "broken" : "",
  reason: better ? "a line" : "",
  ...(better ? { better } : {}),
});
const note = (name: Side): Note => ({
  code: "side-broken",
  severity: "watch",
  place: name,
  message: "broken",
  remedy: "run-on",
  values: {},
  field: `sides.${name}.fill`,
});
const REPLY: EdgesReport = {
  sides: [side("top"), side("right", "run-on"), side("bottom"), side("left", "drawn-out")],
  notes: [note("left"), note("right")],
};

describe("a move of the crop", () => {
  const crop = { x: 0.1, y: 0, width: 0.5, height: 0.5 };
  const move = moveCropOf(JOB, crop);

  it("is made in the job that it was worked out for, and leaves what else was changed", () => {
    const now: Job = { ...JOB, name: "High tide" };
    expect(move(now)).toEqual({ ...now, picture: { ...now.picture, crop } });
  });

  it.each<[string, Job]>([
    ["the face", { ...JOB, face: { width_mm: 297, height_mm: 210 } }],
    ["the picture's turn", { ...JOB, picture: { ...JOB.picture, turn: 90 } }],
    ["the picture", { ...JOB, picture: { ...JOB.picture, sha256: "0".repeat(64) } }],
    ["the crop", { ...JOB, picture: { ...JOB.picture, crop: { ...crop, x: 0.2 } } }],
  ])("changes nothing where %s has changed since", (_what, now) => {
    expect(move(now)).toBe(now);
  });
});

describe("what is asked", () => {
  it("stays while texts, sheet, colour and softness change", () => {
    const other: Job = {
      ...JOB,
      name: "High tide",
      sides: { ...JOB.sides, blur_mm: 9 },
    };
    expect(edgesKey(other, 1)).toBe(edgesKey(JOB, 1));
  });

  it.each<[string, string]>([
    ["the picture", edgesKey(JOB, 2)],
    [
      "the crop",
      edgesKey(
        {
          ...JOB,
          picture: {
            ...JOB.picture,
            crop: { x: 0, y: 0, width: 1, height: 0.5 },
          },
        },
        1,
      ),
    ],
    ["the face", edgesKey({ ...JOB, face: { width_mm: 211, height_mm: 297 } }, 1)],
    ["the bars", edgesKey({ ...JOB, bars: { ...JOB.bars, depth_mm: 38 } }, 1)],
    ["one side's fill", edgesKey(setSideFill("left", "plain")(JOB), 1)],
    ["a group", edgesKey({ ...JOB, group: { ...JOB.group, panels: 2 } }, 1)],
  ])("changes with %s", (_what, key) => {
    expect(key).not.toBe(edgesKey(JOB, 1));
  });
});

it("a note finds the figures of its side", () => {
  expect(sideOf(REPLY, note("left"))?.better).toBe("drawn-out");
  expect(sideOf(REPLY, { ...note("left"), field: "sides.fill" })).toBeUndefined();
});

it("a note is dropped as soon as its side has another fill", () => {
  expect(currentNotes(REPLY, JOB).map(({ place }) => place)).toEqual(["left", "right"]);
  expect(currentNotes(REPLY, setSideFill("left", "drawn-out")(JOB)).map(({ place }) => place)).toEqual(["right"]);
});

it("a note about several sides is dropped as soon as one of them has another fill", () => {
  const reply: EdgesReport = {
    ...REPLY,
    notes: [{ ...note("right"), code: "continued-mirrored", field: "sides.fill" }],
  };
  expect(currentNotes(reply, JOB)).toHaveLength(1);
  expect(currentNotes(reply, setSideFill("left", "drawn-out")(JOB))).toEqual([]);
});

it("a side to be continued that is a mirror is not said to be continued", () => {
  const right: SideReport = { ...side("right"), fill: "continued" };
  expect(suitsShown(right)).toBe("Lines continued suits it.");
  expect(suitsShown({ ...right, mirrored: true })).toBe(
    "A mirror suits it better than lines continued, and it is one.",
  );
  expect(suitsShown({ ...side("right"), mirrored: true })).toBe("Mirror suits it.");
});

describe("a fill that is taken", () => {
  it("is that side's own and no other's", () => {
    const job = setSideFill("left", "run-on")(JOB);
    expect(job.sides.left).toEqual({ fill: "run-on" });
    expect((["top", "right", "bottom", "left"] as const).map((name) => fillOf(job, name))).toEqual([
      "mirror",
      "mirror",
      "mirror",
      "run-on",
    ]);
  });

  it("leaves what else is that side's own", () => {
    const soft: Job = {
      ...JOB,
      sides: { ...JOB.sides, top: { fill: "fade", blur_mm: 4 } },
    };
    expect(setSideFill("top", "mirror")(soft).sides.top).toEqual({
      fill: "mirror",
      blur_mm: 4,
    });
  });

  it("lets a side follow the others again when it is as they are", () => {
    const job = setSideFill("left", "mirror")(setSideFill("left", "run-on")(JOB));
    expect(job).toEqual(JOB);
  });
});

const reply = (...worth: Side[]): EdgesReport => ({
  sides: (["top", "right", "bottom", "left"] as const).map((name): SideReport => ({
    side: name,
    fill: "mirror",
    busy: 0,
    doubled: 0,
    broken: 0,
    cut: 0,
    chevrons: 0,
    repeated: 0,
    smeared: 0,
    bent: 0,
    severed: 0,
    streaked: 0,
    mirrored: false,
    fault: worth.includes(name) ? "broken" : "",
    reason: worth.includes(name) ? "a line is bent" : "",
  })),
  notes: [],
});

it("names the sides that are worth a look", () => {
  expect(edgesSentence(reply())).toBe("Every side's fill suits what the picture has beside its edge.");
  expect(edgesSentence(reply("left"))).toBe("Worth a look: the left side.");
  expect(edgesSentence(reply("top", "left"))).toBe("Worth a look: the top and left sides.");
  expect(edgesSentence(reply("top", "right", "left"))).toBe("Worth a look: the top, right and left sides.");
});

it("shows figures to two decimals", () => {
  expect(figureShown(0.876)).toBe("0.88");
  expect(figureShown(0)).toBe("0.00");
});

it("says a reason as a sentence", () => {
  const [top, right] = reply("top").sides;
  expect(top && reasonShown(top)).toBe("A line is bent.");
  expect(right && reasonShown(right)).toBe("");
});

it("says a move of the crop with its way", () => {
  const crop = { x: 0.1, y: 0, width: 0.8, height: 1 };
  const words = (right_mm: number, down_mm: number) =>
    moveShown({ ...side("left"), move: { right_mm, down_mm, crop } }, "mm");
  expect(words(6.5, 0)).toBe("Move the crop 6.5 mm to the right");
  expect(words(-6.5, 0)).toBe("Move the crop 6.5 mm to the left");
  expect(words(0, 12)).toBe("Move the crop 12 mm down");
  expect(words(0, -12)).toBe("Move the crop 12 mm up");
  expect(moveShown(side("left"), "mm")).toBe("");
});
