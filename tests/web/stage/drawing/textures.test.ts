import { describe, expect, it } from "vitest";
import { checkTexture, TextureStore } from "../../../../web/src/stage/drawing/textures";
import type { StageTexture } from "../../../../web/src/stage/types";

const picture = (widthPx: number, heightPx: number): StageTexture => ({
  pixels: new Uint8Array(widthPx * heightPx * 4),
  widthPx,
  heightPx,
});

describe("TextureStore", () => {
  it("keeps one texture for each picture and counts the smaller copies", () => {
    const store = new TextureStore(1);
    const [one, other] = [picture(8, 4), picture(2, 2)];
    store.keep(new Set([one, other]));
    // derived: 32 + 8 + 2 + 1 texels of the first (8x4, 4x2, 2x1, 1x1) and 4 + 1 of the second, 4 bytes each.
    expect([store.count, store.bytes]).toEqual([2, (43 + 5) * 4]);
    expect(store.of(one)).not.toBe(store.of(other));
    const before = store.of(one);
    store.keep(new Set([one]));
    expect([store.count, store.of(one) === before]).toEqual([1, true]);
  });

  it("writes a picture of the same size over the one that it follows", () => {
    const store = new TextureStore(1);
    const [one, next] = [picture(8, 4), picture(8, 4)];
    store.keep(new Set([one]));
    const [texture, version] = [store.of(one), store.of(one).version];
    store.keep(new Set([next]));
    expect(store.of(next)).toBe(texture);
    expect(texture.image.data).toBe(next.pixels);
    expect(texture.version).toBeGreaterThan(version);
  });

  it("shows bare canvas where there is no picture", () => {
    const store = new TextureStore(1);
    expect(store.of(undefined).image.width).toBe(1);
    expect([store.count, store.bytes]).toEqual([0, 0]);
  });
});

it("refuses pixels that are not as many as the size says", () => {
  expect(() => checkTexture({ ...picture(2, 2), widthPx: 3 })).toThrow("texture: expected 24 bytes, got 16");
});
