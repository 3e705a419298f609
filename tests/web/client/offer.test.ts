import { describe, expect, it } from "vitest";
import { readOffer } from "../../../web/src/client/offer";

const WHOLE = {
  textures: ["data:image/jpeg;base64,"],
  folds: [{ positions: "", uv: "", triangles: "" }],
  surroundings: { wall: "plaster" },
  variants: [
    {
      letter: "A",
      label: "18 mm",
      answer: ["I choose A."],
      texture: 0,
      fold: 0,
      sizes: {
        faceWidthMm: 300,
        faceHeightMm: 200,
        depthMm: 18,
        turnoverMm: 25,
      },
      panels: [{ centreMm: [0, 0], top: 0, bottom: 1 }],
    },
  ],
};

const [VARIANT] = WHOLE.variants;

describe("reading the offer", () => {
  it("takes a whole one", () => {
    expect(readOffer(JSON.stringify(WHOLE)).variants[0]?.label).toBe("18 mm");
  });

  it.each([
    ["a texture that is none", { ...WHOLE, textures: [1] }],
    ["no folds", { ...WHOLE, folds: undefined }],
    ["a fold without its mesh", { ...WHOLE, folds: [{ uv: "", triangles: "" }] }],
    ["no variant", { ...WHOLE, variants: [] }],
    ["a texture that is not there", { ...WHOLE, variants: [{ ...VARIANT, texture: 1 }] }],
    ["half a fold", { ...WHOLE, variants: [{ ...VARIANT, fold: 0.5 }] }],
    ["a label that is no text", { ...WHOLE, variants: [{ ...VARIANT, label: 18 }] }],
    ["no panel", { ...WHOLE, variants: [{ ...VARIANT, panels: [] }] }],
    ["a panel without a place", { ...WHOLE, variants: [{ ...VARIANT, panels: [{ top: 0, bottom: 1 }] }] }],
    ["a list", []],
  ])("refuses %s", (_, damaged) => {
    expect(() => readOffer(JSON.stringify(damaged))).toThrow("not whole");
  });
});
