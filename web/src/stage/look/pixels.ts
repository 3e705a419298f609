/** A colour view of the flat canvas as pixels, without the graphics processor; mirrors `look_shaders.ts`. */

import { hueGroupPlaces, LINE, MEMBER, RIM } from "./hue_mask";
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
    halves === undefined
      ? new Uint8ClampedArray(texture.pixels)
      : throughTable(texture.pixels, tableOf(halves), look.nodes);
  const marks = view === "clip" ? clipMarks(look, thresholdDe) : undefined;
  const lit = labels !== undefined && group !== 0 ? litPlace(labels, group) : undefined;
  if (marks !== undefined || lit !== undefined) paint(seen, texture, look.scale, marks, lit);
  for (let i = 3; i < seen.length; i += 4) seen[i] = 255;
  return seen;
}

/** Trilinear interpolation of all four channels. */
function throughTable(pixels: Uint8Array, table: Float32Array, nodes: number): Pixels {
  const out = new Uint8ClampedArray(pixels.length);
  // Of every byte: the node below it, and how far it lies towards the next.
  const node = new Int32Array(256);
  const part = new Float32Array(256);
  for (let byte = 0; byte < 256; byte += 1) {
    const place = (byte / 255) * (nodes - 1);
    node[byte] = Math.min(Math.floor(place), nodes - 2);
    part[byte] = place - (node[byte] ?? 0);
  }
  const redStride = CHANNELS;
  const greenStride = CHANNELS * nodes;
  const blueStride = CHANNELS * nodes * nodes;
  for (let i = 0; i < pixels.length; i += 4) {
    const r = pixels[i] ?? 0;
    const g = pixels[i + 1] ?? 0;
    const b = pixels[i + 2] ?? 0;
    const x = part[r] ?? 0;
    const y = part[g] ?? 0;
    const z = part[b] ?? 0;
    const at = (node[r] ?? 0) * redStride + (node[g] ?? 0) * greenStride + (node[b] ?? 0) * blueStride;
    const w00 = (1 - y) * (1 - z);
    const w10 = y * (1 - z);
    const w01 = (1 - y) * z;
    const w11 = y * z;
    for (let k = 0; k < CHANNELS; k += 1) {
      const p = at + k;
      const low =
        (table[p] ?? 0) * w00 +
        (table[p + greenStride] ?? 0) * w10 +
        (table[p + blueStride] ?? 0) * w01 +
        (table[p + greenStride + blueStride] ?? 0) * w11;
      const q = p + redStride;
      const high =
        (table[q] ?? 0) * w00 +
        (table[q + greenStride] ?? 0) * w10 +
        (table[q + blueStride] ?? 0) * w01 +
        (table[q + greenStride + blueStride] ?? 0) * w11;
      // Storing holds it to 0 to 255 and rounds.
      out[i + k] = (low + (high - low) * x) * 255;
    }
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
