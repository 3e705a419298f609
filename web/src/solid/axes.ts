/** The axes of CIELAB as lines and labels: a floor of a* and b* at L* = 0, and a ruler of L* at its rim. */

import type { Point } from "../stage/camera/orbit";
import { labPoint } from "./lab_space";

export interface AxisLine {
  readonly from: Point;
  readonly to: Point;
  /** 0 to 1. */
  readonly strength: number;
}

export interface AxisLabel {
  readonly text: string;
  readonly at: Point;
  /** The name of an axis, not a figure on it. */
  readonly isName: boolean;
}

export interface Axes {
  readonly lines: readonly AxisLine[];
  readonly labels: readonly AxisLabel[];
}

const TICK = 20;
const TICK_LONG = 2.5;
/** A ring of equal chroma every so much. */
const RING = 40;
const RING_PARTS = 72;
/** How far outside the last figure the name of an axis stands. */
const NAME_OFF = 13;
/** A real minus sign is as wide as a plus. */
export const figure = (value: number): string => `${value}`.replace("-", "\u2212");

/** a* and b* on the floor, with rings of equal chroma about the greys. */
export function floorAxes(reach: number): Axes {
  const lines: AxisLine[] = [];
  const labels: AxisLabel[] = [];
  const axes = [
    { name: "a*", at: (along: number, across: number) => labPoint(0, along, across) },
    { name: "b*", at: (along: number, across: number) => labPoint(0, across, along) },
  ];
  for (const { name, at } of axes) {
    lines.push({ from: at(-reach, 0), to: at(reach, 0), strength: 0.75 });
    for (let value = -reach; value <= reach; value += TICK) {
      if (value === 0) continue;
      lines.push({ from: at(value, -TICK_LONG), to: at(value, TICK_LONG), strength: 0.75 });
      if (value % (2 * TICK) === 0) labels.push({ text: figure(value), at: at(value, -9), isName: false });
    }
    labels.push({ text: `+${name}`, at: at(reach + NAME_OFF, 0), isName: true });
    labels.push({ text: `\u2212${name}`, at: at(-reach - NAME_OFF, 0), isName: true });
  }
  for (let chroma = RING; chroma <= reach; chroma += RING) {
    const at = (part: number): Point => {
      const angle = (part / RING_PARTS) * 2 * Math.PI;
      return labPoint(0, chroma * Math.cos(angle), chroma * Math.sin(angle));
    };
    for (let part = 0; part < RING_PARTS; part += 1) {
      lines.push({ from: at(part), to: at(part + 1), strength: 0.32 });
    }
  }
  lines.push({ from: labPoint(0, 0, 0), to: labPoint(100, 0, 0), strength: 0.55 });
  return { lines, labels };
}

/** L* upright at a place in the plane of a* and b*, its figures further out by `outA` and `outB`. */
export function lightnessRuler(a: number, b: number, outA: number, outB: number): Axes {
  const lines: AxisLine[] = [{ from: labPoint(0, a, b), to: labPoint(100, a, b), strength: 0.75 }];
  const labels: AxisLabel[] = [{ text: "L*", at: labPoint(109, a, b), isName: true }];
  for (let value = 0; value <= 100; value += TICK) {
    const tick = TICK_LONG;
    lines.push({ from: labPoint(value, a, b), to: labPoint(value, a + outA * tick, b + outB * tick), strength: 0.75 });
    labels.push({ text: figure(value), at: labPoint(value, a + outA * 8, b + outB * 8), isName: false });
  }
  return { lines, labels };
}
