/** A colour view of the flat canvas as pixels, without the graphics processor; mirrors `shaders.ts`. */

import { hueGroupPlaces, LINE, MEMBER, RIM } from "./hue_mask";
import { putNearestBytes } from "./rounding";
import { LUMA, PALE } from "./shaders";
import { CHANNELS, checkLabels, checkLook, tableOf } from "./table";
import type { ColourView, Look, StageLabels, StageTexture } from "../types";

type Pixels = Uint8ClampedArray<ArrayBuffer>;

/** The line round a group and its rim, as on the stage. */
const LINE_COLOUR = [28, 23, 20] as const;
const RIM_COLOUR = [255, 252, 245] as const;

/**
 * The pixels (rows, columns, 4) of a view, alpha 255.
 *
 * `thresholdDe` counts in the clip map only. With labels and a hue group above 0 that group is highlighted.
 */
export function lookPixels(
  texture: StageTexture,
  look: Look,
  view: ColourView,
  thresholdDe: number,
  labels?: StageLabels,
  group = 0,
): Pixels {
  checkLook(look);
  const halves = view === "filed" ? look.filed : look.printed;
  const seen =
    halves === undefined ? new Uint8ClampedArray(texture.pixels) : throughTable(texture.pixels, tableOf(halves), look);
  const marks = view === "clip" ? clipMarks(look, thresholdDe) : undefined;
  const lit = labels !== undefined && group !== 0 ? litPlace(labels, group) : undefined;
  if (marks !== undefined || lit !== undefined) paint(seen, texture, look.scale, marks, lit);
  for (let i = 3; i < seen.length; i += 4) seen[i] = 255;
  return seen;
}

/** Interpolation of all four channels by tetrahedra: from a cell's first node to its last, along its edges. */
function throughTable(pixels: Uint8Array, table: Float32Array, look: Look): Pixels {
  const out = new Uint8ClampedArray(pixels.length);
  const { nodes } = look;
  const strides = [CHANNELS, CHANNELS * nodes, CHANNELS * nodes * nodes] as const;
  // Of every byte of each channel: where its cell begins, and how far the byte lies in it.
  const begins = new Int32Array(256 * 3);
  const parts = new Float32Array(256 * 3);
  for (let byte = 0; byte < 256; byte += 1) {
    for (const [channel, stride] of strides.entries()) {
      const place = look.curve[byte * CHANNELS + channel] ?? 0;
      const node = Math.min(Math.floor(place), nodes - 2);
      begins[byte * 3 + channel] = node * stride;
      parts[byte * 3 + channel] = place - node;
    }
  }
  const [redStep, greenStep, blueStep] = strides;
  const across = redStep + greenStep + blueStep;
  const seen: [number, number, number, number] = [0, 0, 0, 0];
  for (let i = 0; i < pixels.length; i += 4) {
    const r = (pixels[i] ?? 0) * 3;
    const g = (pixels[i + 1] ?? 0) * 3 + 1;
    const b = (pixels[i + 2] ?? 0) * 3 + 2;
    const x = parts[r] ?? 0;
    const y = parts[g] ?? 0;
    const z = parts[b] ?? 0;
    const at = (begins[r] ?? 0) + (begins[g] ?? 0) + (begins[b] ?? 0);
    const most = Math.max(x, y, z);
    const least = Math.min(x, y, z);
    const middle = Math.max(Math.min(x, y), Math.min(Math.max(x, y), z));
    const first = at + (x >= y && x >= z ? redStep : y >= z ? greenStep : blueStep);
    const last = at + across - (z <= x && z <= y ? blueStep : y <= x ? greenStep : redStep);
    for (let k = 0; k < CHANNELS; k += 1) {
      seen[k] =
        255 *
        ((table[at + k] ?? 0) * (1 - most) +
          (table[first + k] ?? 0) * (most - middle) +
          (table[last + k] ?? 0) * (middle - least) +
          (table[at + across + k] ?? 0) * least);
    }
    putNearestBytes(out, i, seen[0], seen[1], seen[2]);
    // Storing holds it to 0 to 255 and rounds.
    out[i + 3] = seen[3];
  }
  return out;
}

/** Of every byte of the fourth channel: the first byte of its colour in the scale, or -1 where it is not marked. */
function clipMarks(look: Look, thresholdDe: number): Int32Array {
  const last = look.scale.length / 3 - 1;
  return Int32Array.from({ length: 256 }, (_, byte) => {
    const lost = (byte * look.clipFullDe) / 255;
    return lost > thresholdDe ? 3 * Math.round(Math.min(lost / look.scaleFullDe, 1) * last) : -1;
  });
}

interface LitPlace extends StageLabels {
  readonly place: Uint8Array;
}

function litPlace(labels: StageLabels, group: number): LitPlace {
  checkLabels(labels);
  return { ...labels, place: hueGroupPlaces(labels, group) };
}

/** Paint the clip map and the highlighted hue group over pixels that came through a table. */
function paint(
  seen: Pixels,
  texture: StageTexture,
  scale: Uint8Array,
  marks: Int32Array | undefined,
  lit: LitPlace | undefined,
): void {
  const { widthPx, heightPx } = texture;
  const inked = texture.inked ?? { left: 0, top: 0, right: widthPx, bottom: heightPx };
  const across = (lit?.widthPx ?? 0) / widthPx;
  const down = (lit?.heightPx ?? 0) / heightPx;
  let i = 0;
  for (let y = 0; y < heightPx; y += 1) {
    // Bare canvas is not printed, so it cannot clip.
    const printedRow = y >= inked.top && y < inked.bottom;
    const row = Math.floor((y + 0.5) * down) * (lit?.widthPx ?? 0);
    for (let x = 0; x < widthPx; x += 1, i += 4) {
      const what = lit === undefined ? MEMBER : lit.place[row + Math.floor((x + 0.5) * across)];
      if (what === LINE || what === RIM) {
        const [r, g, b] = what === LINE ? LINE_COLOUR : RIM_COLOUR;
        seen[i] = r;
        seen[i + 1] = g;
        seen[i + 2] = b;
        continue;
      }
      if (what === MEMBER && marks === undefined) continue;
      const printed = printedRow && x >= inked.left && x < inked.right;
      const mark = marks !== undefined && what === MEMBER && printed ? (marks[seen[i + 3] ?? 0] ?? -1) : -1;
      if (mark >= 0) {
        seen[i] = scale[mark] ?? 0;
        seen[i + 1] = scale[mark + 1] ?? 0;
        seen[i + 2] = scale[mark + 2] ?? 0;
      } else {
        const luma = LUMA[0] * (seen[i] ?? 0) + LUMA[1] * (seen[i + 1] ?? 0) + LUMA[2] * (seen[i + 2] ?? 0);
        const grey = PALE.low * 255 + PALE.span * luma;
        seen[i] = grey;
        seen[i + 1] = grey;
        seen[i + 2] = grey;
      }
    }
  }
}
