/** The part of a texture that one piece shows: panels share a texture, each with rows of its own. */

import type { StagePiece } from "../types";

/** A piece's part of its texture, as shares of it. */
export interface AtlasPart {
  /** Where its rows begin, and how many they are. */
  readonly rows: readonly [number, number];
  /** Left, top, right, bottom of what is printed. */
  readonly inked: readonly [number, number, number, number];
}

const ALL: AtlasPart = { rows: [0, 1], inked: [0, 0, 1, 1] };

/** The part that a piece shows; its inked box counts from the first of its rows. */
export function atlasPart({ texture, rows, inked: own }: Pick<StagePiece, "texture" | "rows" | "inked">): AtlasPart {
  if (texture === undefined) return ALL;
  const { widthPx, heightPx } = texture;
  const { topPx, bottomPx } = rows ?? { topPx: 0, bottomPx: heightPx };
  if (!(topPx >= 0 && topPx < bottomPx && bottomPx <= heightPx)) {
    throw new RangeError(`rows: expected a part of ${heightPx} rows, got ${topPx} to ${bottomPx}`);
  }
  const inked = own ?? texture.inked ?? { left: 0, top: 0, right: widthPx, bottom: bottomPx - topPx };
  return {
    rows: [topPx / heightPx, (bottomPx - topPx) / heightPx],
    inked: [
      inked.left / widthPx,
      (topPx + inked.top) / heightPx,
      inked.right / widthPx,
      (topPx + inked.bottom) / heightPx,
    ],
  };
}
