import { expect, it } from "vitest";
import german from "../../../../../pycore/speech/data/de.json";
import type { VariantReply } from "../../../../../web/src/contract/types";
import { besideSentence, figuresOf } from "../../../../../web/src/page/state/compare/figures";
import { speak } from "../../../../../web/src/speech/say";
import { JOB, LAYOUT } from "../../jobs";

const variant = (fits: boolean): VariantReply => ({
  label: "20 mm",
  job: JOB,
  layout: { ...LAYOUT, sheet: { ...LAYOUT.sheet, fits } },
  lost_share: 0.2,
  weight_g: 44.4,
  whole_g: [268.2, 598.9],
  outside_share: 0.0349,
  panels: [{ number: 1, centre_mm: [0, 0], top_px: 0, bottom_px: 100 }],
  texture: 0,
  inked: { left: 0, top: 0, right: 1, bottom: 1 },
  fold: 0,
  look: 0,
});
const texts = (one: VariantReply, unit: "mm" | "inch", variants: readonly VariantReply[] = [one]) =>
  Object.fromEntries(figuresOf(one, unit, variants).map(({ name, text }) => [name, text]));

it("says the figures in the page's unit", () => {
  expect(texts(variant(true), "mm")).toEqual({
    lost: "20 %",
    canvas: "300.9 × 387.9 mm",
    fits: "yes",
    clipped: "3.5 %",
    weight: "44 g",
    piece: "260 to 600 g",
  });
  // Derived: 300.9 / 25.4 = 11.846 and 387.9 / 25.4 = 15.272.
  expect(texts(variant(false), "inch")).toMatchObject({
    canvas: "11.85 × 15.27 in",
    fits: "no",
  });
});

it("says weights in one unit for all that hang side by side", () => {
  const [one, heavy] = [variant(true), { ...variant(true), whole_g: [890, 1230] as [number, number] }];
  expect(texts(one, "mm", [one, heavy])["piece"]).toBe("0.2 to 0.6 kg");
  expect(texts(heavy, "mm", [one, heavy])["piece"]).toBe("0.8 to 1.3 kg");
});

it("says of how many canvases a group is", () => {
  const group = {
    ...variant(true),
    job: { ...JOB, group: { ...JOB.group, panels: 3 } },
  };
  expect(texts(group, "mm")["canvas"]).toBe("3 of 300.9 × 387.9 mm");
});

it("says what hangs side by side, and how many of them the sheet or roll holds", () => {
  const named = ["18 mm", "38 mm", "50 mm"];
  expect(besideSentence(named, [variant(true), variant(true), variant(false)])).toBe(
    "Side by side: 18 mm, 38 mm and 50 mm. The sheet holds 2 of 3.",
  );
  expect(besideSentence(["A", "B"], [variant(true), variant(true)])).toContain("The sheet holds all.");
  speak("de", german);
  expect(besideSentence(["A", "B"], [variant(true), variant(true)])).toContain("Der Bogen fasst alle.");
  speak("en", {});
  const { height_mm: _height, ...roll } = JOB.sheet;
  const onRoll = { ...variant(false), job: { ...JOB, sheet: roll } };
  expect(besideSentence(["A", "B"], [onRoll, onRoll])).toContain("The roll holds none.");
});

it("has German heads of short parts, which six columns side by side hold", () => {
  speak("de", german);
  const heads = figuresOf(variant(true), "mm", [variant(true)]).map(({ head }) => head);
  speak("en", {});
  // Common practice: a letter of this face is half an em wide. Six parts of 9 letters at 11.2 px are 302 px, and
  // the column has 303 px at its narrowest.
  expect(
    heads
      .join(" ")
      .split(/[\s\u00AD]/u)
      .filter((part) => part.length > 9),
  ).toEqual([]);
});
