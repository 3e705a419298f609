/** The stretcher bars: four lengths of wood, mitred at the corners, with a lip that holds the canvas off the wood. */

export interface BarSizes {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
}

export interface BarMesh {
  /** (triangles, 3 corners, 3), mm, in the frame of the fold: face at z = 0, wall below. */
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** (corners, 3), mm: along the bar, round its section, and the bar's number from 0 to 3. */
  readonly grain: Float32Array;
  /** Width of a bar, seen from the back. */
  readonly barWidthMm: number;
}

/** Room between wood and canvas, so that the two never share a plane. */
const CLEARANCE_MM = 0.4;

/** Common practice, no source: a bar is about 40 mm wide, less where the face is small. */
export function barWidth(widthMm: number, heightMm: number): number {
  return Math.min(40, Math.min(widthMm, heightMm) * 0.22);
}

/** The mesh of the four bars. */
export function bars(sizes: BarSizes): BarMesh {
  const barWidthMm = barWidth(sizes.widthMm, sizes.heightMm);
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
  return {
    positions: new Float32Array(positions),
    normals: new Float32Array(normals),
    grain: new Float32Array(grain),
    barWidthMm,
  };
}
