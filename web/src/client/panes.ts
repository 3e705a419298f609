/** The content of each pane: a variant's panels. Folds and textures that variants share are unpacked once. */
import { paper } from "../stage/still/still";
import type { StageFold, StagePane, StageTexture } from "../stage/types";
import type { Offer, OfferedFold } from "./offer";

/** One pane for each variant, in their order. */
export async function panesOf(offer: Offer): Promise<readonly StagePane[]> {
  const textures = await Promise.all(offer.textures.map(textureFrom));
  return panesFrom(offer, offer.folds.map(foldFrom), textures);
}

/** The same from what is unpacked already. */
export function panesFrom(
  offer: Offer,
  folds: readonly StageFold[],
  textures: readonly StageTexture[],
): readonly StagePane[] {
  return offer.variants.map(({ fold, texture, sizes, panels }) => {
    const [mesh, pixels] = [folds[fold], textures[texture]];
    if (mesh === undefined || pixels === undefined) throw new RangeError("a variant without a canvas");
    const row = (share: number): number => Math.round(share * pixels.heightPx);
    return {
      pieces: panels.map(({ centreMm, top, bottom }) => ({
        fold: mesh,
        sizes,
        texture: pixels,
        rows: { topPx: row(top), bottomPx: row(bottom) },
        centreMm,
      })),
    };
  });
}

/** The browser returns other pixels than were drawn, as some do against fingerprinting. */
export class PixelsWithheld extends Error {
  override readonly name = "PixelsWithheld";
}

export function bytesFrom(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** The canvas in its one position: folded. */
export function foldFrom(packed: OfferedFold): StageFold {
  return {
    at: [1],
    positions: new Float32Array(bytesFrom(packed.positions).buffer),
    uv: new Float32Array(bytesFrom(packed.uv).buffer),
    triangles: new Uint32Array(bytesFrom(packed.triangles).buffer),
    outlines: new Uint32Array(),
    creaseCount: 0,
    steps: [],
  };
}

/** The pixels of a picture that stands in the page itself. */
async function textureFrom(address: string): Promise<StageTexture> {
  const image = new Image();
  image.src = address;
  await image.decode();
  const { naturalWidth: widthPx, naturalHeight: heightPx } = image;
  const surface = paper(widthPx, heightPx);
  surface.drawImage(image, 0, 0);
  const { data } = surface.getImageData(0, 0, widthPx, heightPx);
  return { pixels: new Uint8Array(data.buffer), widthPx, heightPx };
}

/** Throws where the browser does not return pixels as they were drawn. */
export function checkPixels(): void {
  const surface = paper(8, 8);
  surface.fillStyle = "#5a6b7c";
  surface.fillRect(0, 0, 8, 8);
  const { data } = surface.getImageData(0, 0, 8, 8);
  const expected = [0x5a, 0x6b, 0x7c, 0xff];
  if (data.some((value, i) => value !== expected[i % 4])) throw new PixelsWithheld("the browser withholds pixels");
}
