/** The canvas as flat-shaded triangles: every triangle has corners of its own, so that a crease stays sharp. */

/** Spread figures kept per vertex (`width` numbers each) to the triangles' corners. */
export function spread(
  figures: ArrayLike<number>,
  corners: ArrayLike<number>,
  width: number,
  out: Float32Array = new Float32Array(corners.length * width),
): Float32Array {
  for (let corner = 0; corner < corners.length; corner += 1) {
    const vertex = corners[corner] ?? 0;
    for (let k = 0; k < width; k += 1) out[corner * width + k] = figures[vertex * width + k] ?? 0;
  }
  return out;
}

/**
 * The unit normal of every triangle at each of its corners, from positions laid out (triangles, 3 corners, 3).
 *
 * A triangle without area, as a linear mix of two frames can make one, keeps the normal +z.
 */
export function flatNormals(positions: Float32Array, out: Float32Array): void {
  for (let i = 0; i + 8 < positions.length; i += 9) {
    const at = (k: number): number => positions[i + k] ?? 0;
    const ux = at(3) - at(0);
    const uy = at(4) - at(1);
    const uz = at(5) - at(2);
    const vx = at(6) - at(0);
    const vy = at(7) - at(1);
    const vz = at(8) - at(2);
    let nx = uy * vz - uz * vy;
    let ny = uz * vx - ux * vz;
    let nz = ux * vy - uy * vx;
    const length = Math.hypot(nx, ny, nz);
    if (length > 1e-9) {
      nx /= length;
      ny /= length;
      nz /= length;
    } else {
      nx = 0;
      ny = 0;
      nz = 1;
    }
    for (let k = 0; k < 9; k += 3) {
      out[i + k] = nx;
      out[i + k + 1] = ny;
      out[i + k + 2] = nz;
    }
  }
}

/** A box that encloses points laid out (points, 3). */
export interface Extent {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

export function extent(positions: Float32Array): Extent {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    for (const axis of [0, 1, 2] as const) {
      const value = positions[i + axis] ?? 0;
      low[axis] = Math.min(low[axis], value);
      high[axis] = Math.max(high[axis], value);
    }
  }
  return { low, high };
}
