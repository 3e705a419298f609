/** A tile of plaster, made by code: gently trowelled, the same on every visit. */

/** A whole-number hash of a lattice point: the same everywhere, no state. */
function hash(x: number, y: number, seed: number): number {
  let h = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 0xffffffff;
}

const ease = (t: number): number => t * t * (3 - 2 * t);

/** Smooth noise from 0 to 1 on a lattice of `cells` x `cells` that repeats; u and v from 0 to 1. */
export function tileNoise(u: number, v: number, cellsU: number, cellsV: number, seed: number): number {
  const x = u * cellsU;
  const y = v * cellsV;
  const x0 = Math.floor(x);
  const y0 = Math.floor(y);
  const tx = ease(x - x0);
  const ty = ease(y - y0);
  const at = (dx: number, dy: number): number =>
    hash((((x0 + dx) % cellsU) + cellsU) % cellsU, (((y0 + dy) % cellsV) + cellsV) % cellsV, seed);
  const top = at(0, 0) + (at(1, 0) - at(0, 0)) * tx;
  const bottom = at(0, 1) + (at(1, 1) - at(0, 1)) * tx;
  return top + (bottom - top) * ty;
}

/** Height of the plaster: broad trowel strokes, then finer unevenness, then grain. */
export function plasterHeight(u: number, v: number): number {
  const bend = tileNoise(u, v, 3, 3, 5) * 0.1;
  return (
    0.2 * tileNoise(u + bend, v, 5, 9, 11) +
    0.2 * tileNoise(u, v + bend, 23, 31, 23) +
    0.22 * tileNoise(u, v, 71, 61, 31) +
    0.2 * tileNoise(u, v, 149, 137, 47) +
    0.18 * tileNoise(u, v, 256, 256, 59)
  );
}

/**
 * One byte per pixel, `size` x `size`, that tiles without a seam: how the plaster takes the light.
 *
 * 128 is the plain wall. The shade follows the slope of the height towards the light (upper left), so that
 * the light seems to come from where the stage's own comes from.
 */
export function plasterTile(size: number): Uint8Array<ArrayBuffer> {
  const heights = new Float32Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      heights[row * size + column] = plasterHeight(column / size, row / size);
    }
  }
  const out = new Uint8Array(size * size);
  const height = (row: number, column: number): number =>
    heights[((row + size) % size) * size + ((column + size) % size)] ?? 0;
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      // v grows upwards on the wall: uphill towards the right or downwards faces the upper left.
      const slope =
        height(row, column + 1) - height(row, column - 1) + height(row - 1, column) - height(row + 1, column);
      const tone = height(row, column) - 0.5;
      const shade = 128 + (slope * size * 0.24 + tone * 150);
      out[row * size + column] = Math.max(0, Math.min(255, Math.round(shade)));
    }
  }
  return out;
}
