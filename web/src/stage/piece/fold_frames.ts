/** Between the sampled positions of the fold: which two frames, in what mix, and how far off the wall. */

import type { StageFold, FoldStep } from "../types";

/** `mix` of the frame `high`, the rest of the frame `low`. */
export interface FrameMix {
  readonly low: number;
  readonly high: number;
  readonly mix: number;
}

/** The position to show: within a hidden step the start is shown, and past its middle the end. */
export function shownAt(at: number, steps: readonly FoldStep[]): number {
  const clamped = Math.min(1, Math.max(0, at));
  const step = steps.find((s) => s.hidden === true && clamped > s.start && clamped < s.end);
  if (step === undefined) return clamped;
  return clamped < (step.start + step.end) / 2 ? step.start : step.end;
}

/** The two sampled frames about `at`; on a sampled position the mix is 0, so that it is shown exactly. */
export function frameMix(samples: ArrayLike<number>, at: number): FrameMix {
  const last = samples.length - 1;
  let low = 0;
  while (low < last && (samples[low + 1] ?? Infinity) <= at) low += 1;
  const start = samples[low] ?? 0;
  const end = samples[low + 1];
  if (end === undefined || at <= start) return { low, high: low, mix: 0 };
  return { low, high: low + 1, mix: (at - start) / (end - start) };
}

/** Corner positions (vertices, 3) in mm at a mix of two frames, written into `out`. */
export function mixFrames(fold: StageFold, frame: FrameMix, out: Float32Array): void {
  const size = out.length;
  const from = frame.low * size;
  const to = frame.high * size;
  const { positions } = fold;
  for (let i = 0; i < size; i += 1) {
    const a = positions[from + i] ?? 0;
    const b = positions[to + i] ?? 0;
    out[i] = a + (b - a) * frame.mix;
  }
}

/**
 * How far the piece must stand off the wall in every frame, in mm, so that no later frame cuts the wall either.
 *
 * A frame needs the depth of its lowest point below the back of the bars. The piece only ever comes nearer the
 * wall while it closes: each frame takes the most that it or any later one needs. Between two frames every
 * corner moves straight, so its lowest point is never lower than the straight line between their needs.
 */
export function clearances(fold: StageFold, depthMm: number): Float32Array {
  const frames = fold.at.length;
  const size = fold.positions.length / frames;
  const out = new Float32Array(frames);
  let most = 0;
  for (let frame = frames - 1; frame >= 0; frame -= 1) {
    let lowest = 0;
    for (let i = frame * size + 2; i < (frame + 1) * size; i += 3) {
      lowest = Math.min(lowest, fold.positions[i] ?? 0);
    }
    most = Math.max(most, -lowest - depthMm);
    out[frame] = most;
  }
  return out;
}

/** A figure kept for every frame, at a mix of two. */
export function mixFigure(figures: ArrayLike<number>, frame: FrameMix): number {
  const low = figures[frame.low] ?? 0;
  return low + ((figures[frame.high] ?? 0) - low) * frame.mix;
}

/** How strongly the crease and cut lines are drawn: fully while it lies open, no more once it is folded. */
export function lineStrength(at: number): number {
  const t = Math.min(1, Math.max(0, (1 - at) / 0.45));
  return t * t * (3 - 2 * t);
}

/** Refuse a mesh whose parts do not belong together. */
export function checkFold(fold: StageFold): void {
  const frames = fold.at.length;
  const vertices = fold.uv.length / 2;
  if (frames === 0) throw new RangeError("fold.at: expected at least one sampled position, got none");
  if (fold.positions.length !== frames * vertices * 3) {
    throw new RangeError(
      `fold.positions: expected ${frames} frames of ${vertices} vertices, got ${fold.positions.length} numbers`,
    );
  }
  for (const [name, list] of [
    ["triangles", fold.triangles],
    ["outlines", fold.outlines],
  ] as const) {
    for (const index of list) {
      if (index >= vertices) throw new RangeError(`fold.${name}: expected less than ${vertices}, got ${index}`);
    }
  }
}
