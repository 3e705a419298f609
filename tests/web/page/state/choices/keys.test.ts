import { describe, expect, it } from "vitest";
import type { Job } from "../../../../../web/src/contract/types";
import { detailKey, fillsKey, finishesKey, intentsPicturesKey } from "../../../../../web/src/page/state/choices/keys";
import { JOB } from "../../jobs";

const ON = { picture: 1, profiles: 0, viewing: "black" } as const;
const sides = (part: Partial<Job["sides"]>): Job => ({
  ...JOB,
  sides: { ...JOB.sides, ...part },
});
const wrap = (part: Partial<Job["wrap"]>): Job => ({
  ...JOB,
  wrap: { ...JOB.wrap, ...part },
});
const colour = (part: Partial<Job["colour"]>): Job => ({
  ...JOB,
  colour: { ...JOB.colour, ...part },
});

describe("choosing an option draws nothing anew", () => {
  it("neither a fill nor a finish nor an intent", () => {
    expect(fillsKey(sides({ fill: "plain" }), ON, "all")).toBe(fillsKey(sides({ fill: "fade" }), ON, "all"));
    const left = (fill: "plain" | "fade") => fillsKey(sides({ left: { fill, blur_mm: 3 } }), ON, "left");
    expect(left("plain")).toBe(left("fade"));
    expect(finishesKey(wrap({ finish: "lapped" }), ON)).toBe(finishesKey(wrap({ finish: "trimmed" }), ON));
    expect(intentsPicturesKey(colour({ intent: "absolute" }), ON)).toBe(
      intentsPicturesKey(colour({ intent: "perceptual" }), ON),
    );
  });
});

describe("a part of the print file is drawn anew", () => {
  const print = (part: Partial<Job["print"]>): Job => ({
    ...JOB,
    print: { ...JOB.print, ...part },
  });

  it("with another sharpening, resolution, way of enlarging, picture or size", () => {
    const drawing: Job = {
      ...JOB,
      picture: { ...JOB.picture, enlarging: "drawing" },
    };
    const keys = [
      detailKey(JOB, ON, 152),
      detailKey(print({ sharpening: 0.5 }), ON, 152),
      detailKey(print({ ppi: 150 }), ON, 152),
      detailKey(drawing, ON, 152),
      detailKey(JOB, { ...ON, picture: 2 }, 152),
      detailKey(JOB, ON, 304),
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("not with what does not change it", () => {
    expect(detailKey(print({ marks: false, bits: 16 }), { ...ON, profiles: 3 }, 152)).toBe(detailKey(JOB, ON, 152));
  });
});

describe("what is drawn follows", () => {
  it.each<[string, string, string]>([
    [
      "the finish, for fills",
      fillsKey(wrap({ finish: "lapped" }), ON, "all"),
      fillsKey(wrap({ finish: "tucked" }), ON, "all"),
    ],
    ["the blur, for fills", fillsKey(sides({ blur_mm: 4 }), ON, "all"), fillsKey(JOB, ON, "all")],
    [
      "the blur, for a side's own fills",
      fillsKey(sides({ left: { blur_mm: 4 } }), ON, "left"),
      fillsKey(sides({ left: { blur_mm: 3 } }), ON, "left"),
    ],
    [
      "the fill of the others, for a side's own fills",
      fillsKey(sides({ fill: "plain" }), ON, "left"),
      fillsKey(sides({ fill: "fade" }), ON, "left"),
    ],
    ["the picture, for fills", fillsKey(JOB, { ...ON, picture: 2 }, "all"), fillsKey(JOB, ON, "all")],
    ["the fill, for finishes", finishesKey(sides({ fill: "plain" }), ON), finishesKey(sides({ fill: "fade" }), ON)],
    ["the over pair, for finishes", finishesKey(wrap({ over: "left-right" }), ON), finishesKey(JOB, ON)],
    ["the viewing, for intents", intentsPicturesKey(JOB, { ...ON, viewing: "canvas" }), intentsPicturesKey(JOB, ON)],
    ["a profile, for intents", intentsPicturesKey(JOB, { ...ON, profiles: 1 }), intentsPicturesKey(JOB, ON)],
    [
      "compensation, for intents",
      intentsPicturesKey(colour({ black_point_compensation: false }), ON),
      intentsPicturesKey(JOB, ON),
    ],
  ])("%s", (_what, changed, before) => {
    expect(changed).not.toBe(before);
  });

  it("not the screen's viewing or a profile where no colour is judged", () => {
    const on = { ...ON, viewing: "canvas", profiles: 3 } as const;
    expect(fillsKey(JOB, on, "all")).toBe(fillsKey(JOB, ON, "all"));
    expect(finishesKey(JOB, on)).toBe(finishesKey(JOB, ON));
  });
});
