/**
 * The weave of the canvas as a tile that repeats without a seam: slopes, height and roughness.
 *
 * A plain weave: every thread of the warp passes over one thread of the weft and under the next. From memory:
 * threads 0.8 mm apart, so that the weave repeats every 1.6 mm, and about 0.15 mm of relief left under the coating.
 * The threads differ a little in breadth and height, or the canvas would look like a printed grid.
 */

/** Threads along each side of the tile. */
const THREADS = 16;
const PITCH_MM = 0.8;
/** Length of the tile's sides on the canvas. */
export const WEAVE_TILE_MM = THREADS * PITCH_MM;
/** The slope that full scale stands for: a byte of 128 is level, 255 and 1 are this steep. */
export const FULL_SLOPE = 0.4;
/** Mean of the tile's height, 0 to 1. */
export const MEAN_HEIGHT = 0.556;
const RELIEF_MM = 0.15;
/** The deepest hollow of `weaveHeights`. */
const DEEPEST = 0.25;
const SEED = 20250611;

/** Numbers from 0 to 1 that look random and are always the same (mulberry32). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

interface Thread {
  /** Half its breadth, in pitches. */
  readonly half: number;
  readonly lift: number;
  /** Where it thickens along its way: phase and strength of one slow wave. */
  readonly phase: number;
  readonly slub: number;
}

function threads(next: () => number): readonly Thread[] {
  return Array.from({ length: THREADS }, () => ({
    half: 0.5 + 0.12 * (next() - 0.5),
    lift: 0.3 * (next() - 0.5),
    phase: 2 * Math.PI * next(),
    slub: 0.16 * next(),
  }));
}

/** Height of one set of threads: `across` and `along` them in pitches; `up` is +1 where thread 0 starts on top. */
function ridge(set: readonly Thread[], across: number, along: number, up: number): number {
  const index = Math.floor(across);
  const thread = set[index % THREADS];
  if (thread === undefined) return 0;
  const thick = 1 + thread.slub * Math.sin((2 * Math.PI * along) / THREADS + thread.phase);
  const off = (across - index - 0.5) / (thread.half * thick);
  const round = Math.sqrt(Math.max(0, 1 - off * off));
  const side = index % 2 === 0 ? up : -up;
  return 0.62 * round * thick + 0.5 * side * Math.cos(Math.PI * (along - 0.5)) + thread.lift;
}

/** Heights of the tile, about 0.25 to 1.25: (px, px), row 0 at the bottom. */
export function weaveHeights(px: number): Float32Array {
  const next = numbers(SEED);
  const warp = threads(next);
  const weft = threads(next);
  const out = new Float32Array(px * px);
  for (let j = 0; j < px; j += 1) {
    for (let i = 0; i < px; i += 1) {
      const x = ((i + 0.5) / px) * THREADS;
      const y = ((j + 0.5) / px) * THREADS;
      out[j * px + i] = Math.max(ridge(warp, x, y, 1), ridge(weft, y, x, -1));
    }
  }
  return softened(softened(out, px), px);
}

/** The coating fills the gaps: a mean of nine neighbours, round the tile's ends. */
function softened(heights: Float32Array, px: number): Float32Array {
  const out = new Float32Array(px * px);
  for (let j = 0; j < px; j += 1) {
    const rows = [j - 1, j, j + 1].map((row) => rowStart(row, px));
    for (let i = 0; i < px; i += 1) {
      const left = (i - 1 + px) % px;
      const right = (i + 1) % px;
      let sum = 0;
      for (const row of rows) {
        sum += heights[row + left] ?? 0;
        sum += heights[row + i] ?? 0;
        sum += heights[row + right] ?? 0;
      }
      out[j * px + i] = sum / 9;
    }
  }
  return out;
}

/** Where a row begins; past the tile's ends it begins again. */
const rowStart = (row: number, px: number): number => ((row + px) % px) * px;

/** The tile as RGBA: slope along x, slope along y, height (0 deep, 255 high), roughness (255 rough). */
export function weaveTile(px: number): Uint8Array<ArrayBuffer> {
  const heights = weaveHeights(px);
  const perPx = (RELIEF_MM * px) / (2 * WEAVE_TILE_MM);
  const slope = (rise: number): number =>
    Math.round(128 + 127 * Math.max(-1, Math.min(1, (rise * perPx) / FULL_SLOPE)));
  const out = new Uint8Array(px * px * 4);
  const at = (index: number): number => heights[index] ?? 0;
  for (let j = 0; j < px; j += 1) {
    const above = rowStart(j + 1, px);
    const row = rowStart(j, px);
    const below = rowStart(j - 1, px);
    for (let i = 0; i < px; i += 1) {
      const level = Math.max(0, Math.min(1, at(row + i) - DEEPEST));
      const place = (row + i) * 4;
      out[place] = slope(at(row + ((i + 1) % px)) - at(row + ((i - 1 + px) % px)));
      out[place + 1] = slope(at(above + i) - at(below + i));
      out[place + 2] = Math.round(255 * level);
      // The crowns of the threads, rubbed in making, are a little smoother than the hollows.
      out[place + 3] = Math.round(255 * (1 - 0.35 * level));
    }
  }
  return out;
}
