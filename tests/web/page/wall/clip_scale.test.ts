import { expect, it, vi } from "vitest";

vi.mock("../../../../web/src/page/controls/amount", () => ({
  AmountSlider: () => null,
}));
vi.mock("../../../../web/src/page/state/colour/clip", () => ({}));
vi.mock("../../../../web/src/page/state/colour/look", () => ({}));
vi.mock("../../../../web/src/page/state/colour/viewing", () => ({}));
vi.mock("../../../../web/src/page/state/work/edit", () => ({}));
vi.mock("../../../../web/src/page/state/work/work", () => ({}));

const { gradient, wordsAround } = await import("../../../../web/src/page/wall/clip_scale");

it("the scale is drawn in its own colours from end to end", () => {
  const scale = new Uint8Array(64 * 3).map((_, at) => (at % 3 === 0 ? 255 - Math.floor(at / 3) : 7));
  const drawn = gradient(scale);
  const stops = drawn.match(/rgb\([^)]*\)/g) ?? [];
  expect(stops.length).toBe(16);
  expect(stops[0]).toBe("rgb(255 7 7)");
  expect(stops[15]).toBe("rgb(192 7 7)");
  // Derived: stop 5 of 15 lies at step 63 x 5 / 15 = 21 of the scale.
  expect(stops[5]).toBe("rgb(234 7 7)");
});

it("a map of the job before is told from the map of this one", () => {
  const anew = wordsAround({ isNothingOut: false, isAnew: true });
  expect(anew.words + anew.words2).toBe("Off by; being worked out again");
  // Figures of the job before are no reason to call the map empty.
  expect(wordsAround({ isNothingOut: true, isAnew: true })).toEqual(anew);
  expect(wordsAround({ isNothingOut: false, isAnew: false }).words2).toBe(" (grey: prints true)");
  expect(wordsAround({ isNothingOut: true, isAnew: false }).words).toBe("Nothing is out of gamut by");
});
