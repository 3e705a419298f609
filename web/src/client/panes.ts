/** What hangs in each pane: a variant's panels; folds and textures are unpacked once for all who share them. */

import type { StageFold, StagePane, StageTexture } from "../stage/types";
import type { Offer } from "./offer";
import { foldFrom, textureFrom } from "./unpack";

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
