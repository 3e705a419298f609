/** Where a colour stands in the scene: a* to the right, L* up, b* away from the viewer; 100 of Lab are 1 unit. */

import type { Point } from "../stage/camera/orbit";

const UNITS = 0.01;
/** The stage's camera stays above a floor at 0; so far up there is none, and one may look from below. */
const RAISED = 20;

/** L*, a*, b* of one colour in the scene: a turn of (a*, b*, L*), so that the sides of a surface stay. */
export function labPoint(lightness: number, a: number, b: number): Point {
  return [a * UNITS, RAISED + lightness * UNITS, -b * UNITS];
}

/** Colours (n, 3) in the scene, (n, 3). */
export function labPoints(lab: Float32Array): Float32Array {
  const out = new Float32Array(lab.length);
  for (let i = 0; i < lab.length; i += 3) out.set(labPoint(lab[i] ?? 0, lab[i + 1] ?? 0, lab[i + 2] ?? 0), i);
  return out;
}

/** Length of the axes that hold all colours: their largest |a*| or |b*|, up to the next 20, from 60 to 140. */
export function reachOf(labs: readonly Float32Array[]): number {
  let most = 0;
  for (const lab of labs) {
    for (let i = 0; i < lab.length; i += 3) most = Math.max(most, Math.abs(lab[i + 1] ?? 0), Math.abs(lab[i + 2] ?? 0));
  }
  return Math.min(140, Math.max(60, Math.ceil(most / 20) * 20));
}
