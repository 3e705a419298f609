/** What is on the back of a finished piece: staples in the turn-over, two D-rings and the wire that it hangs by. */

import rules from "../../contract/bar_rules.json";
import type { Point } from "../camera/orbit";
import { type SolidMesh, Solids } from "../drawing/solids";

export interface FittingSizes {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
  readonly turnoverMm: number;
  readonly barWidthMm: number;
  /** How far the thickest fold stands off the back of the bars. */
  readonly bulkMm: number;
  /** The most that it may weigh. */
  readonly weighsG: number;
}

/** The core's rules; a staple's crown lies along the bar. */
const STAPLES_EVERY_MM = rules.staples_every_mm;
const CROWN_MM = rules.staple_crown_mm;
/** Breadth of a staple's wire; from memory. */
const WIRE_MM = 1.1;
const STAPLE_RISE_MM = 0.6;
/** Below this there is no room for a staple. */
const LEAST_TURNOVER_MM = rules.least_stapled_mm;
/** From a staple to the inner edge of its bar. */
const INSIDE_BAR_MM = 4;
/** Between a staple and the strap of a ring. */
const BESIDE_STRAP_MM = 1;
/** How far the rings sit below the top, as a share of the height. */
const RING_DOWN = rules.ring_down_share;
const HANGING_WIRE_MM = 0.8;
/** A canvas of one layer is not thicker than this. */
const ONE_LAYER_MM = 0.6;

/** A staple: the middle of its crown, and how it is turned. */
export interface Staple {
  readonly x: number;
  readonly y: number;
  readonly turnRad: number;
  readonly onCorner: boolean;
}

/** A ring's strap on the left upright bar, which the right one mirrors: where it lies, mm. */
interface Strap {
  readonly outer: number;
  readonly inner: number;
  readonly middleY: number;
  readonly half: number;
  /** How much smaller than usual the ring is: a small piece hangs from small ones. */
  readonly scale: number;
}

function strapOf({ widthMm: w, heightMm: h, barWidthMm }: FittingSizes): Strap {
  const scale = Math.min(1, w / 200, h / 160);
  const inner = barWidthMm * rules.ring_in_share;
  return { outer: inner - 11 * scale, inner, middleY: h * (1 - RING_DOWN), half: 4.5 * scale, scale };
}

/** Places from `start` to `end`, evenly, no further apart than `most`; the middle where there is no room for two. */
function evenly(start: number, end: number, most: number): readonly number[] {
  if (end < start) return [(start + end) / 2];
  const steps = Math.max(1, Math.ceil((end - start) / most));
  return Array.from({ length: steps + 1 }, (_, k) => start + ((end - start) * k) / steps);
}

/** Where the staples go: along every bar, clear of the folded corners, and one aslant in each corner. */
export function staples(sizes: FittingSizes): readonly Staple[] {
  const { widthMm: w, heightMm: h, depthMm, turnoverMm: r, barWidthMm } = sizes;
  if (r < LEAST_TURNOVER_MM) return [];
  // In the wood, where the turn-over reaches past it.
  const inWood = barWidthMm - INSIDE_BAR_MM;
  const inward = Math.min(r * 0.58, r - 3, inWood);
  const clear = depthMm + r + CROWN_MM / 2 + rules.staple_clear_mm;
  const strap = strapOf(sizes);
  const out: Staple[] = [];
  for (const x of evenly(clear, w - clear, STAPLES_EVERY_MM)) {
    for (const y of [inward, h - inward]) out.push({ x, y, turnRad: 0, onCorner: false });
  }
  for (const y of evenly(clear, h - clear, STAPLES_EVERY_MM)) {
    // Beside a ring's strap, which is to lie flat on the bar.
    const isAtStrap = Math.abs(y - strap.middleY) < strap.half + CROWN_MM / 2 + BESIDE_STRAP_MM;
    const asIn = isAtStrap ? Math.min(inward, strap.outer - BESIDE_STRAP_MM - WIRE_MM / 2) : inward;
    for (const x of [asIn, w - asIn]) out.push({ x, y, turnRad: Math.PI / 2, onCorner: false });
  }
  const aslant = Math.min(r * 0.55, inWood);
  for (const [right, up] of [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const) {
    out.push({
      x: right === 1 ? w - aslant : aslant,
      y: up === 1 ? h - aslant : aslant,
      turnRad: right === up ? -Math.PI / 4 : Math.PI / 4,
      onCorner: true,
    });
  }
  return out;
}

/** The mesh of all fittings, mm, in the frame of the fold: face at z = 0, wall below. */
export function fittings(sizes: FittingSizes): SolidMesh {
  const { depthMm, bulkMm } = sizes;
  const solids = new Solids();
  for (const { x, y, turnRad, onCorner } of staples(sizes)) {
    const under = -depthMm - (onCorner ? bulkMm : Math.min(bulkMm, ONE_LAYER_MM));
    const half: Point = [CROWN_MM / 2, WIRE_MM / 2, 0];
    solids.box([x - half[0], y - half[1], under - STAPLE_RISE_MM], [x + half[0], y + half[1], under + 0.3], 1, turnRad);
  }
  hangOn(solids, sizes, -depthMm - Math.min(bulkMm, ONE_LAYER_MM));
  return solids.mesh();
}

/** Whether a wire goes between the rings: the core's rule on weight, and on how hard a flat one pulls. */
function hasWire({ widthMm: w, heightMm: h, barWidthMm, weighsG }: FittingSizes): boolean {
  if (weighsG > rules.wire_most_kg * 1000) return false;
  const span = w - 2 * rules.ring_in_share * barWidthMm;
  const below = h * RING_DOWN - barWidthMm - rules.wire_below_bar_mm;
  const rise = Math.max(rules.least_wire_rise_mm, Math.min(span * rules.wire_rise_share, below));
  const run = (span * (w > rules.one_hook_most_mm ? 1 - rules.hooks_apart_share : 1)) / 2;
  return Math.hypot(run, rise) / (2 * rise) <= rules.wire_pull_most;
}

/** Two D-rings on the upright bars, and where there is one the wire between them, drawn up where its hook or its two will be. */
function hangOn(solids: Solids, sizes: FittingSizes, back: number): void {
  const { widthMm: w, heightMm: h, barWidthMm } = sizes;
  const { outer, inner, middleY: ringY, half, scale: size } = strapOf(sizes);
  const z = back - 1.1;
  const reach = 9 * size;
  for (const side of [-1, 1] as const) {
    const x = side < 0 ? inner : w - inner;
    // The strap with its screw, then the D: straight beside the strap, round towards the wire.
    const strap = inner - outer;
    const middle = x + side * strap * 0.5;
    solids.box([middle - strap / 2, ringY - half, back - 0.9], [middle + strap / 2, ringY + half, back + 0.2], 0.86);
    const head = 2 * size;
    solids.box([middle - head, ringY - head, back - 1.7], [middle + head, ringY + head, back - 0.8], 0.62, 0.4);
    const round = Array.from({ length: 13 }, (_, k): Point => {
      const angle = -Math.PI / 2 + (k * Math.PI) / 12;
      return [x - side * Math.cos(angle) * reach, ringY + Math.sin(angle) * reach, z];
    });
    const first = round[0] ?? [x, ringY, z];
    solids.rod([...round, first, round[1] ?? first], 1.1 * size, 0.95);
  }
  if (!hasWire(sizes)) return;
  const [from, to] = [inner + reach, w - inner - reach];
  const rise = Math.min((to - from) * rules.wire_rise_share, h * RING_DOWN - barWidthMm - rules.wire_below_bar_mm);
  const peak = ringY + Math.max(rules.least_wire_rise_mm, rise);
  // One hook bends it over its own width; two stand apart.
  const level = w > rules.one_hook_most_mm ? (w - 2 * inner) * rules.hooks_apart_share : 14;
  const wire: Point[] = [
    [from, ringY, z],
    [(w - level) / 2, peak, z],
    [(w + level) / 2, peak, z],
    [to, ringY, z],
  ];
  solids.rod(wire, HANGING_WIRE_MM, 0.9);
  // Each end is wound round itself for a little way.
  for (const [start, end] of [
    [wire[0], wire[1]],
    [wire[3], wire[2]],
  ] as const) {
    if (start === undefined || end === undefined) continue;
    const share = Math.min(0.4, 22 / Math.max(1, Math.hypot(end[0] - start[0], end[1] - start[1])));
    const until: Point = [start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share, z];
    solids.rod([start, until], HANGING_WIRE_MM * 1.9, 0.8);
  }
}
