/** The tables of a look as plain numbers, and the checks that they must pass. */

import type { Look, StageLabels } from "../types";

/** Channels of a node: red, green, blue, and the difference by which it clips. */
export const CHANNELS = 4;

/** The number that 16 bits stand for: IEEE 754-2008, binary16. */
export function halfToNumber(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 0x1f;
  const fraction = bits & 0x3ff;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  if (exponent === 31) return fraction === 0 ? sign * Infinity : Number.NaN;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}

const unpacked = new WeakMap<Uint16Array, Float32Array>();

/** A table of half floats as floats; worked out once for each table, and forgotten with it. */
export function tableOf(halves: Uint16Array): Float32Array {
  const known = unpacked.get(halves);
  if (known !== undefined) return known;
  const table = Float32Array.from(halves, halfToNumber);
  unpacked.set(halves, table);
  return table;
}

/** Refuse a look whose parts do not belong together. */
export function checkLook(look: Look): void {
  if (!Number.isInteger(look.nodes) || look.nodes < 2) {
    throw new RangeError(`look.nodes: expected a whole number from 2 on, got ${look.nodes}`);
  }
  const size = look.nodes ** 3 * CHANNELS;
  for (const [name, table] of [
    ["printed", look.printed],
    ["filed", look.filed],
  ] as const) {
    if (table !== undefined && table.length !== size) {
      throw new RangeError(`look.${name}: expected ${size} numbers, got ${table.length}`);
    }
  }
  if (look.scale.length < 6 || look.scale.length % 3 !== 0) {
    throw new RangeError(`look.scale: expected three bytes for each of two or more steps, got ${look.scale.length}`);
  }
  for (const [name, de] of [
    ["clipFullDe", look.clipFullDe],
    ["scaleFullDe", look.scaleFullDe],
  ] as const) {
    if (!(de > 0 && de < Infinity)) throw new RangeError(`look.${name}: expected more than 0, got ${de}`);
  }
}

/** Refuse labels that do not fill their size. */
export function checkLabels({ labels, widthPx, heightPx }: StageLabels): void {
  if (!(widthPx >= 1 && heightPx >= 1) || labels.length !== widthPx * heightPx) {
    throw new RangeError(`labels: expected ${widthPx} x ${heightPx} bytes, got ${labels.length}`);
  }
}
