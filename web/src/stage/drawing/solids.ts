/** Simple solids gathered into one triangle mesh with flat normals: boxes and round rods, each with a tone. */

import type { Point } from "../camera/orbit";

export interface SolidMesh {
  /** (triangles, 3 corners, 3), counter-clockwise seen from outside. */
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** (corners): how light this solid is, 1 for the plain colour. */
  readonly tones: Float32Array;
}

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

function unit(v: Point): Point {
  const length = Math.hypot(...v) || 1;
  return [v[0] / length, v[1] / length, v[2] / length];
}

export class Solids {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly tones: number[] = [];

  /** A flat four-sided face, counter-clockwise seen from outside. */
  face(a: Point, b: Point, c: Point, d: Point, tone: number): void {
    const normal = unit(cross(minus(b, a), minus(c, a)));
    for (const corner of [a, b, c, a, c, d]) {
      this.positions.push(...corner);
      this.normals.push(...normal);
      this.tones.push(tone);
    }
  }

  /** A box from its low to its high corner, turned round z about its middle. */
  box(low: Point, high: Point, tone: number, turnRad = 0): void {
    const middle: Point = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, 0];
    const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)];
    const at = (x: 0 | 1, y: 0 | 1, z: 0 | 1): Point => {
      const dx = (x === 1 ? high[0] : low[0]) - middle[0];
      const dy = (y === 1 ? high[1] : low[1]) - middle[1];
      return [middle[0] + cos * dx - sin * dy, middle[1] + sin * dx + cos * dy, z === 1 ? high[2] : low[2]];
    };
    this.face(at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1), tone);
    this.face(at(1, 0, 0), at(0, 0, 0), at(0, 1, 0), at(1, 1, 0), tone);
    this.face(at(1, 0, 1), at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), tone);
    this.face(at(0, 0, 0), at(0, 0, 1), at(0, 1, 1), at(0, 1, 0), tone);
    this.face(at(0, 1, 1), at(1, 1, 1), at(1, 1, 0), at(0, 1, 0), tone);
    this.face(at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1), tone);
  }

  /** A rod of six sides through points in a plane of constant z; its ends stay open. */
  rod(points: readonly Point[], radius: number, tone: number): void {
    const ring = (index: number): Point[] => {
      const here = points[index] ?? [0, 0, 0];
      const direction = unit(minus(points[index + 1] ?? here, points[index - 1] ?? here));
      const aside: Point = [-direction[1], direction[0], 0];
      return Array.from({ length: 6 }, (_, k) => {
        const [cos, sin] = [Math.cos((k * Math.PI) / 3) * radius, Math.sin((k * Math.PI) / 3) * radius];
        return [here[0] + aside[0] * cos, here[1] + aside[1] * cos, here[2] + sin];
      });
    };
    for (let index = 0; index + 1 < points.length; index += 1) {
      const [from, to] = [ring(index), ring(index + 1)];
      for (let k = 0; k < 6; k += 1) {
        const [a, b, c, d] = [from[k], from[(k + 1) % 6], to[(k + 1) % 6], to[k]];
        if (a !== undefined && b !== undefined && c !== undefined && d !== undefined) this.face(a, b, c, d, tone);
      }
    }
  }

  mesh(): SolidMesh {
    return {
      positions: new Float32Array(this.positions),
      normals: new Float32Array(this.normals),
      tones: new Float32Array(this.tones),
    };
  }
}
