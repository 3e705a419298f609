/** A tile of plaster, made by code: gently trowelled, the same on every visit. */

/** A whole-number hash of a lattice point: the same everywhere, no state. */
function hash(x: number, y: number, seed: number): number {
  let h = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 0xffffffff;
}

const ease = (t: number): number => t * t * (3 - 2 * t);

/** Noise at a place; u and v from 0 to 1 are one tile. */
type Noise = (u: number, v: number) => number;

/** Smooth noise from 0 to 1 on a lattice of `cellsU` x `cellsV` that repeats. */
export function tileNoise(cellsU: number, cellsV: number, seed: number): Noise {
  // The first column stands behind the last one again, and so does the first row.
  const stride = cellsU + 1;
  const lattice = new Float64Array(stride * (cellsV + 1));
  for (let y = 0; y <= cellsV; y += 1) {
    for (let x = 0; x <= cellsU; x += 1) lattice[y * stride + x] = hash(x % cellsU, y % cellsV, seed);
  }
  return (u, v) => {
    const x = u * cellsU;
    const y = v * cellsV;
    const x0 = Math.floor(x);
    const y0 = Math.floor(y);
    const tx = ease(x - x0);
    const ty = ease(y - y0);
    const column = ((x0 % cellsU) + cellsU) % cellsU;
    const first = (((y0 % cellsV) + cellsV) % cellsV) * stride + column;
    const second = first + stride;
    const upper = lattice[first] ?? 0;
    const lower = lattice[second] ?? 0;
    const top = upper + ((lattice[first + 1] ?? 0) - upper) * tx;
    const bottom = lower + ((lattice[second + 1] ?? 0) - lower) * tx;
    return top + (bottom - top) * ty;
  };
}

/** Height of the plaster: broad trowel strokes, then finer unevenness, then grain. */
export function plasterHeight(): Noise {
  const bent = tileNoise(3, 3, 5);
  const broad = tileNoise(5, 9, 11);
  const strokes = tileNoise(23, 31, 23);
  const uneven = tileNoise(71, 61, 31);
  const finer = tileNoise(149, 137, 47);
  const grain = tileNoise(256, 256, 59);
  return (u, v) => {
    const bend = bent(u, v) * 0.1;
    return (
      0.2 * broad(u + bend, v) +
      0.2 * strokes(u, v + bend) +
      0.22 * uneven(u, v) +
      0.2 * finer(u, v) +
      0.18 * grain(u, v)
    );
  };
}

/**
 * One byte per pixel, `size` x `size`, that tiles without a seam: how the plaster takes the light.
 *
 * 128 is the plain wall. The shade follows the slope of the height towards the light (upper left), so that
 * the light seems to come from where the stage's own comes from.
 */
export function plasterTile(size: number): Uint8Array<ArrayBuffer> {
  const heightAt = plasterHeight();
  const heights = new Float32Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      heights[row * size + column] = heightAt(column / size, row / size);
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
