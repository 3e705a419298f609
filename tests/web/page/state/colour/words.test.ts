import { describe, expect, it } from "vitest";
import type { ClipPart, ClipReply } from "../../../../../web/src/contract/types";
import {
  broughtSentence,
  clipSentence,
  intentFigures,
  labShown,
  screenSentence,
  shareShown,
  solidSentence,
} from "../../../../../web/src/page/state/colour/words";

const part = (name: string, share: number, worst_de: number, share_before = share): ClipPart => ({
  name,
  share,
  chroma: share,
  shadow: 0,
  highlight: 0,
  mean_de: worst_de / 2,
  worst_de,
  share_before,
});
const reply = (parts: ClipPart[]): ClipReply => ({
  outside_share: 0,
  threshold_de: 2,
  parts,
  groups: [],
  labels: { place: 0, shape: [1, 1], dtype: "uint8", state: "index" },
});

describe("what is out of gamut, in a sentence", () => {
  it("tells face, worst side and worst colour", () => {
    const said = clipSentence(reply([part("face", 0.254, 9.46), part("top", 0, 0), part("left", 0.331, 7.2)]));
    expect(said).toBe(
      "25 % of the face is out of gamut by more than 2.0 ΔE00; of the sides the left has most, 33 %. The worst is 9.5 ΔE00.",
    );
  });

  it("leaves sides out where none is out of gamut", () => {
    expect(clipSentence(reply([part("face", 0.02, 3), part("top", 0, 0)]))).toBe(
      "2 % of the face is out of gamut by more than 2.0 ΔE00. The worst is 3.0 ΔE00.",
    );
  });

  it("says that nothing is out of gamut", () => {
    expect(clipSentence(reply([part("face", 0, 0), part("top", 0, 0)]))).toBe(
      "Nothing is out of gamut by more than 2.0 ΔE00.",
    );
  });

  it("tells before and after", () => {
    expect(broughtSentence(reply([part("face", 0.001, 3, 0.25), part("top", 0.004, 3, 0.5)]))).toBe(
      "Of the face 0.1 % is out of gamut, and 25 % without bringing in; of the worst part 0.4 % and 50 %.",
    );
  });
});

it("a share that is not nothing is not shown as nothing", () => {
  expect([0, 0.0004, 0.0005, 0.1].map(shareShown)).toEqual(["0 %", "< 0.1 %", "0.1 %", "10 %"]);
});

it("Lab has signs where they tell something", () => {
  expect(labShown([95.31, -0.46, 1.52])).toBe("95.3, −0.5, +1.5");
  expect(labShown([18.6, 0.04, -0.04])).toBe("18.6, 0.0, 0.0");
});

it("a row of figures follows the table's columns", () => {
  const row = {
    intent: "relative",
    black_point_compensation: true,
    label: "relative",
    outside_share: 0.2164,
    flattened_share: 0.2164,
    mean_de: 4.94,
    p95_de: 12.46,
    shadow_loss: 0.395,
    highlight_loss: 0.112,
    hue_shift_deg: 1.07,
    chroma_change: -6.02,
  } as const;
  expect(intentFigures(row)).toEqual(["21.6", "4.9", "12.5", "39.5", "11.2", "1.1", "−6.0"]);
});

it("the solid's sentence counts the picture, not the points", () => {
  const points = {
    lab: new Float32Array(9),
    printedLab: new Float32Array(9),
    srgb: new Uint8Array(9),
    share: new Float32Array([0.5, 0.25, 0.25]),
    difference: new Float32Array([0, 6, 1]),
  };
  // Derived: above 2 lies one point with a quarter of the picture; above 7 none.
  expect(solidSentence(points, 2)).toBe(
    "Shown are the 3 commonest colours: 25 % of their area is out of gamut by more than 2.0 ΔE00, the farthest of them by 6.0 ΔE00.",
  );
  expect(solidSentence(points, 7)).toBe(
    "Shown are the 3 commonest colours: none of them is out of gamut by more than 7.0 ΔE00.",
  );
});

it("the screen's sentence says what is not used", () => {
  expect(screenSentence({ gamut: "srgb", highRange: false })).toBe(
    "The browser says that this screen shows about sRGB. The proof is drawn in sRGB.",
  );
  expect(screenSentence({ gamut: "p3", highRange: true })).toContain("Display P3, with high dynamic range");
  expect(screenSentence({ gamut: "p3", highRange: true })).toContain("is not used");
});
