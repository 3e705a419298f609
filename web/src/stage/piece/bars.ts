/**
 * The stretcher bars: four lengths of wood, mitred at the corners, with a lip that holds the canvas off the wood,
 * and braces across a long opening.
 */

import rules from "../../contract/bar_rules.json";
import { Solids } from "../drawing/solids";

export interface BarSizes {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
  /** Width of a bar, where the job has its own. */
  readonly barWidthMm?: number;
}

export interface BarMesh {
  /** (triangles, 3 corners, 3), mm, in the frame of the fold: face at z = 0, wall below. */
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** (corners, 3), mm: along the bar, round its section, and the bar's number from 0 to 3; braces 4 and 5. */
  readonly grain: Float32Array;
  /** Width of a bar, seen from the back. */
  readonly barWidthMm: number;
}

/** Room between wood and canvas, so that the two never share a plane. */
const CLEARANCE_MM = 0.4;

/** The core's rule for a bar's width. */
export function barWidth(widthMm: number, heightMm: number): number {
  return Math.min(rules.bar_width_mm, Math.floor(Math.min(widthMm, heightMm) * rules.bar_share + 0.5));
}

/** Where braces cross a bar: evenly, so that no stretch of it is longer than the core's rule allows. */
function bracePlaces(lengthMm: number): readonly number[] {
  const stretches = Math.max(1, Math.ceil(lengthMm / rules.longest_span_mm));
  return Array.from({ length: stretches - 1 }, (_, k) => (lengthMm * (k + 1)) / stretches);
}

/** Braces as boxes: those that stand first, then those that lie. */
function addBraces(sizes: BarSizes, barWidthMm: number, positions: number[], normals: number[], grain: number[]): void {
  const { widthMm: w, heightMm: h, depthMm } = sizes;
  const back = -depthMm + CLEARANCE_MM;
  const front = back + Math.floor(Math.min(rules.brace_depth_mm, depthMm * rules.brace_depth_share) + 1e-9);
  const half = Math.min(rules.brace_width_mm, barWidthMm) / 2;
  const add = (solids: Solids, number: number, along: 0 | 1): void => {
    const mesh = solids.mesh();
    positions.push(...mesh.positions);
    normals.push(...mesh.normals);
    for (let i = 0; i < mesh.positions.length; i += 3) {
      // Across a side of the brace either the sheet's other way changes or the depth: their sum runs round it.
      const across = (mesh.positions[i + 1 - along] ?? 0) + (mesh.positions[i + 2] ?? 0);
      grain.push(mesh.positions[i + along] ?? 0, across, number);
    }
  };
  for (const x of bracePlaces(w)) {
    const upright = new Solids();
    upright.box([x - half, barWidthMm, back], [x + half, h - barWidthMm, front], 1);
    add(upright, 4, 1);
  }
  for (const y of bracePlaces(h)) {
    // Halved where the two cross: this one lies a little deeper, so that they share no plane.
    const lying = new Solids();
    lying.box([barWidthMm, y - half, back + 0.5], [w - barWidthMm, y + half, front - 0.5], 1);
    add(lying, 5, 0);
  }
}

/** The mesh of the bars. */
export function bars(sizes: BarSizes): BarMesh {
  const barWidthMm = sizes.barWidthMm ?? barWidth(sizes.widthMm, sizes.heightMm);
  const front = -CLEARANCE_MM;
  const back = -sizes.depthMm + CLEARANCE_MM;
  const lip = Math.min(barWidthMm * 0.2, 6);
  const fall = Math.min(4, sizes.depthMm * 0.15);
  // The section, as (distance in from the bar's outer side, z), clockwise seen along the bar.
  const section: readonly (readonly [number, number])[] = [
    [CLEARANCE_MM, front],
    [lip, front],
    [barWidthMm, front - fall],
    [barWidthMm, back],
    [CLEARANCE_MM, back],
  ];
  const positions: number[] = [];
  const normals: number[] = [];
  const grain: number[] = [];
  const { widthMm: w, heightMm: h } = sizes;
  // Of each bar: where it starts, the way it runs, the way in, and its length on the outside.
  const lengths = [
    { x: w, y: h, run: [-1, 0], inward: [0, -1], long: w },
    { x: w, y: 0, run: [0, 1], inward: [-1, 0], long: h },
    { x: 0, y: 0, run: [1, 0], inward: [0, 1], long: w },
    { x: 0, y: h, run: [0, -1], inward: [1, 0], long: h },
  ] as const;
  lengths.forEach((bar, number) => {
    let round = 0;
    section.forEach((a, k) => {
      const b = section[(k + 1) % section.length] ?? a;
      const reach = Math.hypot(b[0] - a[0], b[1] - a[1]);
      // Outward normal of this side of the section, in (in from the outer side, z).
      const normalIn = -(b[1] - a[1]) / reach;
      const normalZ = (b[0] - a[0]) / reach;
      const corner = (point: readonly [number, number], end: 0 | 1, across: number): void => {
        // A mitre cut: what lies deeper in by u starts and ends u further along.
        const along = end === 0 ? point[0] : bar.long - point[0];
        positions.push(
          bar.x + bar.run[0] * along + bar.inward[0] * point[0],
          bar.y + bar.run[1] * along + bar.inward[1] * point[0],
          point[1],
        );
        normals.push(bar.inward[0] * normalIn, bar.inward[1] * normalIn, normalZ);
        grain.push(along, across, number);
      };
      corner(a, 0, round);
      corner(a, 1, round);
      corner(b, 1, round + reach);
      corner(a, 0, round);
      corner(b, 1, round + reach);
      corner(b, 0, round + reach);
      round += reach;
    });
  });
  addBraces(sizes, barWidthMm, positions, normals, grain);
  return {
    positions: new Float32Array(positions),
    normals: new Float32Array(normals),
    grain: new Float32Array(grain),
    barWidthMm,
  };
}
