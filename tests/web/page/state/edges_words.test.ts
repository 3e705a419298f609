import { expect, it } from "vitest";
import type { EdgesReply, Side, SideFigures } from "../../../../web/src/contract/types";
import { edgesSentence, figureShown, isHigh, reasonShown } from "../../../../web/src/page/state/edges_words";

const reply = (...worth: Side[]): EdgesReply => ({
  sides: (["top", "right", "bottom", "left"] as const).map((side): SideFigures => ({
    side,
    fill: "mirror",
    busy: 0,
    doubled: 0,
    broken: 0,
    cut: 0,
    reason: worth.includes(side) ? "a line is bent" : "",
  })),
  notes: [],
});

it("names the sides that are worth a look", () => {
  expect(edgesSentence(reply())).toBe("Every side's fill suits what the picture has beside its arris.");
  expect(edgesSentence(reply("left"))).toBe("Worth a look: the left side.");
  expect(edgesSentence(reply("top", "left"))).toBe("Worth a look: the top and left sides.");
  expect(edgesSentence(reply("top", "right", "left"))).toBe("Worth a look: the top, right and left sides.");
});

it("shows figures to two decimals, and which are high", () => {
  expect(figureShown(0.876)).toBe("0.88");
  expect(figureShown(0)).toBe("0.00");
  expect([isHigh(0.499), isHigh(0.5)]).toEqual([false, true]);
});

it("says a reason as a sentence", () => {
  const [top, right] = reply("top").sides;
  expect(top && reasonShown(top)).toBe("A line is bent.");
  expect(right && reasonShown(right)).toBe("");
});
