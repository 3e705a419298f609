/** A look of two nodes along each axis, whose results can be worked out by hand. */

import type { Look } from "../../../web/src/stage/types";

const ONE = 0x3c00;
const HALF = 0x3800;

/** Where every byte lies among evenly spaced nodes. */
export function straightCurve(nodes: number): Float32Array {
  return Float32Array.from({ length: 1024 }, (_, i) => (i % 4 === 3 ? 0 : (Math.floor(i / 4) / 255) * (nodes - 1)));
}

/**
 * Printed: red and blue change places, green is halved, and the difference is the red value (full scale 51).
 * The scale has 21 steps up to 20, step k being (10 k, 255 - 10 k, 7).
 */
export function smallLook(): Look {
  const printed = new Uint16Array(32);
  for (let node = 0; node < 8; node += 1) {
    const red = node & 1 ? ONE : 0;
    const green = node & 2 ? HALF : 0;
    const blue = node & 4 ? ONE : 0;
    printed.set([blue, green, red, red], node * 4);
  }
  const scale = new Uint8Array(Array.from({ length: 21 }, (_, k) => [10 * k, 255 - 10 * k, 7]).flat());
  return {
    nodes: 2,
    curve: straightCurve(2),
    printed,
    clipFullDe: 51,
    scale,
    scaleFullDe: 20,
  };
}
