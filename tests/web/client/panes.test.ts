import { describe, expect, it } from "vitest";
import type { Offer, OfferedVariant } from "../../../web/src/client/offer";
import { bytesFrom, foldFrom, panesFrom } from "../../../web/src/client/panes";

const base64 = (array: ArrayBufferView): string =>
  Buffer.from(array.buffer, array.byteOffset, array.byteLength).toString("base64");

const FOLD = {
  positions: base64(new Float32Array([0, 0, 0, 300, 0, 0, 0, 200, -1.5])),
  uv: base64(new Float32Array([0, 1, 1, 1, 0, 0])),
  triangles: base64(new Uint32Array([0, 1, 2])),
};

const variant = (texture: number, fold: number, panels: OfferedVariant["panels"]): OfferedVariant => ({
  letter: "",
  label: "",
  answer: [],
  texture,
  fold,
  sizes: { faceWidthMm: 300, faceHeightMm: 200, depthMm: 18, turnoverMm: 25 },
  panels,
});

const texture = (heightPx: number) => ({
  pixels: new Uint8Array(4 * heightPx),
  widthPx: 1,
  heightPx,
});

describe("unpacking", () => {
  it("gives the bytes that were packed", () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, i) => i);
    expect(bytesFrom(base64(bytes))).toEqual(bytes);
  });

  it("gives the folded canvas as the one position", () => {
    const fold = foldFrom(FOLD);
    expect([...fold.at]).toEqual([1]);
    expect([...fold.positions]).toEqual([0, 0, 0, 300, 0, 0, 0, 200, -1.5]);
    expect([...fold.triangles]).toEqual([0, 1, 2]);
  });
});

describe("panes", () => {
  const offer = (...variants: OfferedVariant[]): Offer => ({
    textures: [],
    folds: [],
    surroundings: {
      wall: "plaster",
      light_from: "above",
      light_kelvin: 5000,
      beside: "nothing",
      flat_light: false,
    },
    variants,
  });
  const whole = [{ centreMm: [0, 0] as const, top: 0, bottom: 1 }];

  it("share what is the same", () => {
    const fold = foldFrom(FOLD);
    const [first, second] = panesFrom(offer(variant(0, 0, whole), variant(0, 0, whole)), [fold], [texture(8)]);
    expect(first?.pieces[0]?.fold).toBe(second?.pieces[0]?.fold);
    expect(first?.pieces[0]?.texture).toBe(second?.pieces[0]?.texture);
  });

  it("give each panel its rows, in whole pixels of whatever the texture has", () => {
    const panels = [
      { centreMm: [-170, 0] as const, top: 0, bottom: 1 / 3 },
      { centreMm: [170, 0] as const, top: 1 / 3, bottom: 1 },
    ];
    const [pane] = panesFrom(offer(variant(0, 0, panels)), [foldFrom(FOLD)], [texture(10)]);
    // Derived: a third of 10 pixels is 3.33.
    expect(pane?.pieces.map(({ rows }) => rows)).toEqual([
      { topPx: 0, bottomPx: 3 },
      { topPx: 3, bottomPx: 10 },
    ]);
    expect(pane?.pieces.map(({ centreMm }) => centreMm[0])).toEqual([-170, 170]);
  });

  it("refuse a variant without a canvas", () => {
    expect(() => panesFrom(offer(variant(1, 0, whole)), [foldFrom(FOLD)], [texture(1)])).toThrow("without a canvas");
  });
});
