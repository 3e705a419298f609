import { expect, it } from "vitest";
import type { Fill } from "../../../../../web/src/contract/types";
import { fillCost, finishCost, intentCost } from "../../../../../web/src/page/state/choices/words";

const option = (fill: Fill, cut_away_share = 0.12, run_on_share = 0) => ({
  fill,
  cut_away_share,
  run_on_share,
});
const plain = (text: string) => text.replaceAll("\u00a0", " ");

it.each<[Fill, string]>([
  ["mirror", "12 % is cropped away. The outer 20 mm show twice."],
  ["drawn-out", "12 % is cropped away. 20 mm of streaks are invented."],
  ["plain", "12 % is cropped away. 20 mm without a picture."],
  ["fade", "12 % is cropped away. The outer 20 mm show twice, and fade."],
  ["continued", "12 % is cropped away. 20 mm are invented, or show twice."],
])("says what %s loses and invents", (fill, cost) => {
  expect(plain(fillCost(option(fill), 20, "mm"))).toBe(cost);
});

it("says what leaves the face where the picture runs on", () => {
  expect(plain(fillCost(option("run-on", 0, 0.25), 20, "mm"))).toBe(
    "Nothing is cropped away; 25 % leaves the face. Nothing is invented.",
  );
});

it("follows the unit and keeps a figure with its unit", () => {
  expect(fillCost(option("plain"), 25.4, "inch")).toContain("1\u00a0in");
  expect(fillCost(option("plain"), 20, "mm")).not.toMatch(/\d (%|mm)/);
});

it("says how thick a corner lies, and nothing where it is one layer", () => {
  const bulk = [
    { place: "face", layers: 1, thickness_mm: 0.45 },
    { place: "folded corner", layers: 3, thickness_mm: 1.35 },
    { place: "back corner", layers: 5, thickness_mm: 2.25 },
  ];
  expect(plain(finishCost({ finish: "tucked", bulk }, "mm"))).toBe(
    "On the side 3 layers, 1.35 mm; on the back 5 layers, 2.25 mm.",
  );
  expect(finishCost({ finish: "tucked", bulk: bulk.slice(0, 1) }, "mm")).toBe("");
});

it("gives an intent's figures", () => {
  const picture = {
    place: 0,
    shape: [1, 1, 4],
    dtype: "uint8",
    state: "srgb_encoded",
  } as const;
  const cost = intentCost({
    intent: "relative",
    picture: { ...picture, shape: [...picture.shape] },
    mean_de: 4.71,
    p95_de: 12.36,
    flattened_share: 0.2079,
  });
  expect(plain(cost)).toBe("Mean 4.7, 95 % within 12.4 ΔE00. 21 % printed flat.");
});
