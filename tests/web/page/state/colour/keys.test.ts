import { describe, expect, it } from "vitest";
import type { Colour, Job } from "../../../../../web/src/contract/types";
import { clipKey, intentsKey, lookKey, solidKey } from "../../../../../web/src/page/state/colour/keys";
import { JOB } from "../../jobs";

const ON = { picture: 1, profiles: 0 };
const coloured = (part: Partial<Colour>, job = JOB): Job => ({
  ...job,
  colour: { ...job.colour, ...part },
});
const deeper = (job: Job): Job => ({
  ...job,
  bars: { ...JOB.bars, depth_mm: 38 },
});
const look = (job: Job, on = ON) => lookKey(job, on, "canvas", "srgb");

describe("the tables for the screen", () => {
  it("stay while only sizes, texts or the print change", () => {
    expect(look(deeper(JOB))).toBe(look(JOB));
    expect(look({ ...JOB, name: "High tide", print: { ...JOB.print, ppi: 360 } })).toBe(look(JOB));
    expect(look(coloured({ clip_threshold_de: 5 }))).toBe(look(JOB));
  });

  it.each<[string, string]>([
    ["the picture", look(JOB, { ...ON, picture: 2 })],
    ["a profile that was opened", look(JOB, { ...ON, profiles: 1 })],
    ["the profile", look(coloured({ profile: "studio.icc" }))],
    ["the intent", look(coloured({ intent: "perceptual" }))],
    ["compensation", look(coloured({ black_point_compensation: false }))],
    ["bringing in", look(coloured({ bring_in: 0.5 }))],
    ["the viewing", lookKey(JOB, ON, "neither", "srgb")],
    ["the screen", lookKey(JOB, ON, "canvas", "display-p3")],
  ])("are others with %s", (_what, key) => {
    expect(key).not.toBe(look(JOB));
  });

  it("follow sizes and threshold where colours are brought in, for that is fitted to them", () => {
    const brought = coloured({ bring_in: 0.5 });
    expect(look(deeper(brought))).not.toBe(look(brought));
    expect(look(coloured({ clip_threshold_de: 5 }, brought))).not.toBe(look(brought));
  });
});

it("what clips depends on the threshold and on where the picture lies", () => {
  expect(clipKey(coloured({ clip_threshold_de: 5 }), ON)).not.toBe(clipKey(JOB, ON));
  expect(clipKey(deeper(JOB), ON)).not.toBe(clipKey(JOB, ON));
  expect(clipKey({ ...JOB, client: "Lindqvarn House" }, ON)).toBe(clipKey(JOB, ON));
});

it("the intents are compared whichever is taken, and whatever is brought in", () => {
  const other = coloured({
    intent: "absolute",
    black_point_compensation: false,
    bring_in: 1,
  });
  expect(intentsKey(other, ON)).toBe(intentsKey(JOB, ON));
  expect(intentsKey(coloured({ profile: "studio.icc" }), ON)).not.toBe(intentsKey(JOB, ON));
});

it("the solid's points follow the threshold only where colours are brought in", () => {
  expect(solidKey(coloured({ clip_threshold_de: 5 }), ON)).toBe(solidKey(JOB, ON));
  const brought = coloured({ bring_in: 1 });
  expect(solidKey(coloured({ clip_threshold_de: 5 }, brought), ON)).not.toBe(solidKey(brought, ON));
});

it("clip figures, intents and the solid follow the number of panels", () => {
  const three: Job = { ...JOB, group: { ...JOB.group, panels: 3 } };
  expect(clipKey(three, ON)).not.toBe(clipKey(JOB, ON));
  expect(intentsKey(three, ON)).not.toBe(intentsKey(JOB, ON));
  expect(solidKey(three, ON)).not.toBe(solidKey(JOB, ON));
  const brought = coloured({ bring_in: 0.5 }, three);
  expect(look(brought)).not.toBe(look(coloured({ bring_in: 0.5 })));
});
