/** A folded canvas as the triangles that the photograph's camera sees. Pure. */
import type { StagePiece } from "../stage/types";

/** Place (mm from the middle of what hangs, the wall at z = 0), normal and place on the texture of each corner. */
export const FLOATS_PER_CORNER = 8;

/** The folded canvas of a piece, corner by corner of its triangles. */
export function pieceMesh({ fold, sizes, centreMm, rows, texture }: StagePiece): Float32Array<ArrayBuffer> {
  const count = fold.uv.length / 2;
  const folded = fold.positions.subarray(fold.positions.length - count * 3);
  const [top, bottom] = rowsOf(rows, texture?.heightPx ?? 1);
  const out = new Float32Array(fold.triangles.length * FLOATS_PER_CORNER);
  const place = (corner: number): [number, number, number] => {
    const vertex = fold.triangles[corner] ?? 0;
    return [
      (folded[vertex * 3] ?? 0) - sizes.faceWidthMm / 2 + centreMm[0],
      (folded[vertex * 3 + 1] ?? 0) - sizes.faceHeightMm / 2 + centreMm[1],
      (folded[vertex * 3 + 2] ?? 0) + sizes.depthMm,
    ];
  };
  for (let corner = 0; corner < fold.triangles.length; corner += 3) {
    const corners = [place(corner), place(corner + 1), place(corner + 2)] as const;
    const normal = normalOf(corners);
    for (const [i, one] of corners.entries()) {
      const vertex = fold.triangles[corner + i] ?? 0;
      const [u, v] = [fold.uv[vertex * 2] ?? 0, fold.uv[vertex * 2 + 1] ?? 0];
      out.set([...one, ...normal, u, top + v * (bottom - top)], (corner + i) * FLOATS_PER_CORNER);
    }
  }
  return out;
}

/** Which part of the texture's height is the piece's own. */
function rowsOf(rows: StagePiece["rows"], heightPx: number): readonly [number, number] {
  return rows === undefined ? [0, 1] : [rows.topPx / heightPx, rows.bottomPx / heightPx];
}

type Place = readonly [number, number, number];

function normalOf([a, b, c]: readonly [Place, Place, Place]): Place {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const across: Place = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(...across) || 1;
  return [across[0] / length, across[1] / length, across[2] / length];
}
