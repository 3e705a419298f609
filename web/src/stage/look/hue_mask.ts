/** The pixels of one hue group of clipped colours, from the labels of all groups. */

import type { StageLabels } from "../types";

/** 255 where a label is the hue group's, 0 elsewhere. */
export function hueGroupMask(labels: Uint8Array, group: number): Uint8Array<ArrayBuffer> {
  const mask = new Uint8Array(labels.length);
  for (let i = 0; i < mask.length; i += 1) mask[i] = labels[i] === group ? 255 : 0;
  return mask;
}

/** The role of a pixel for a highlighted hue group. */
export const ELSEWHERE = 0;
export const MEMBER = 1;
/** The dark line round the hue group, and its light rim. */
export const LINE = 2;
export const RIM = 3;

/** The line runs where this share of the neighbourhood belongs to the group. */
const SHARE = 0.4;
/** A picture is shown at about this width, so that what the line measures in pixels grows with it. */
const SHOWN_PX = 900;

/** Means over squares of 2 `reach` + 1 pixels, cut off at the edges of the picture. */
export function neighbourhoods(mask: Uint8Array, widthPx: number, heightPx: number, reach: number): Float32Array {
  const out = new Float32Array(mask.length);
  const columns = new Float32Array(widthPx);
  const add = (y: number, sign: 1 | -1): void => {
    if (y < 0 || y >= heightPx) return;
    for (let x = 0; x < widthPx; x += 1) columns[x] = (columns[x] ?? 0) + sign * (mask[y * widthPx + x] ?? 0);
  };
  for (let y = 0; y < reach; y += 1) add(y, 1);
  for (let y = 0; y < heightPx; y += 1) {
    add(y + reach, 1);
    add(y - reach - 1, -1);
    const tall = Math.min(y + reach, heightPx - 1) - Math.max(y - reach, 0) + 1;
    let sum = 0;
    for (let x = 0; x < Math.min(reach, widthPx); x += 1) sum += columns[x] ?? 0;
    for (let x = 0; x < widthPx; x += 1) {
      if (x + reach < widthPx) sum += columns[x + reach] ?? 0;
      if (x > reach) sum -= columns[x - reach - 1] ?? 0;
      const wide = Math.min(x + reach, widthPx - 1) - Math.max(x - reach, 0) + 1;
      out[y * widthPx + x] = sum / (tall * wide);
    }
  }
  return out;
}

/** The first pixels of the pairs, side by side or one above the other, between which the line runs. */
function borders(field: Float32Array, widthPx: number, heightPx: number): number[] {
  const found: number[] = [];
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const i = y * widthPx + x;
      const inside = (field[i] ?? 0) >= SHARE * 255;
      const ends = x + 1 < widthPx && (field[i + 1] ?? 0) >= SHARE * 255 !== inside;
      if (ends || (y + 1 < heightPx && (field[i + widthPx] ?? 0) >= SHARE * 255 !== inside)) found.push(i);
    }
  }
  return found;
}

/** For every pixel of a picture of the labels' size: elsewhere, member, line or rim. */
export function hueGroupPlaces({ labels, widthPx, heightPx }: StageLabels, group: number): Uint8Array {
  const out = hueGroupMask(labels, group);
  const unit = Math.max(1, Math.round(widthPx / SHOWN_PX));
  const found = borders(neighbourhoods(out, widthPx, heightPx, 4 * unit), widthPx, heightPx);
  for (let i = 0; i < out.length; i += 1) out[i] = out[i] === 255 ? MEMBER : ELSEWHERE;
  // The rim first, so that the line lies on it.
  for (const [what, low, high] of [
    [RIM, -unit, 2 * unit - 1],
    [LINE, 0, unit - 1],
  ] as const) {
    for (const i of found) {
      const x = i % widthPx;
      const y = (i - x) / widthPx;
      for (let v = Math.max(y + low, 0); v <= Math.min(y + high, heightPx - 1); v += 1) {
        out.fill(what, v * widthPx + Math.max(x + low, 0), v * widthPx + Math.min(x + high, widthPx - 1) + 1);
      }
    }
  }
  return out;
}
