/** The shape of the piece at the present position of the fold, as numbers, and where it hangs. */

import type { BarMesh } from "./bars";
import { bars } from "./bars";
import { checkFold, clearances, frameMix, lineStrength, mixFigure, mixFrames, shownAt } from "./frames";
import { extent, flatNormals, spread } from "./sheet";
import type { StageFold, StageSizes } from "./types";
import type { Hanging } from "./views";

/** The middle of a picture hangs at the height of the eye: 1.5 m. Common practice, no source. */
const HANGING_HEIGHT_M = 1.5;
/** A tall piece still clears the floor by this much. */
const ABOVE_FLOOR_M = 0.25;
/** The hanger holds the bars a little off the wall. */
const WALL_GAP_MM = 2;

export class PieceShape {
  /** (corners, 3), mm: the triangles' corners now. */
  readonly corners: Float32Array;
  readonly normals: Float32Array;
  readonly uv: Float32Array;
  /** (vertices, 3), mm. */
  readonly vertices: Float32Array;
  readonly bars: BarMesh;
  readonly hanging: Hanging;
  /** The longer side of the flat sheet. */
  readonly longestMm: number;
  lineStrength = 1;
  /** Where the fold's origin hangs: floor y = 0, wall z = 0. */
  originM: readonly [number, number, number] = [0, 0, 0];
  private readonly clearMm: Float32Array;

  constructor(readonly fold: StageFold, readonly sizes: StageSizes) {
    checkFold(fold);
    const size = fold.uv.length * 1.5;
    this.vertices = fold.positions.slice(0, size);
    this.corners = spread(this.vertices, fold.triangles, 3);
    this.normals = new Float32Array(this.corners.length);
    this.uv = spread(fold.uv, fold.triangles, 2);
    this.clearMm = clearances(fold, sizes.depthMm);
    const { faceWidthMm: width, faceHeightMm: height, depthMm: depth } = sizes;
    this.bars = bars({ widthMm: width, heightMm: height, depthMm: depth });
    const flat = extent(this.vertices);
    this.longestMm = Math.max(flat.high[0] - flat.low[0], flat.high[1] - flat.low[1]);
    const heightM = height / 1000;
    const settledMm = WALL_GAP_MM + (this.clearMm[fold.at.length - 1] ?? 0);
    this.hanging = {
      centre: [0, Math.max(HANGING_HEIGHT_M, heightM / 2 + ABOVE_FLOOR_M), (depth + settledMm) / 1000],
      widthM: width / 1000,
      heightM,
      depthM: depth / 1000,
      spreadM: Math.max(0, -flat.low[0], -flat.low[1]) / 1000,
    };
    this.moveTo(1);
  }

  /** Bring everything to a position between flat (0) and folded (1). */
  moveTo(at: number): void {
    const shown = shownAt(at, this.fold.stages);
    const frame = frameMix(this.fold.at, shown);
    mixFrames(this.fold, frame, this.vertices);
    spread(this.vertices, this.fold.triangles, 3, this.corners);
    flatNormals(this.corners, this.normals);
    this.lineStrength = lineStrength(shown);
    const { centre, widthM, heightM } = this.hanging;
    const offMm = WALL_GAP_MM + this.sizes.depthMm + mixFigure(this.clearMm, frame);
    this.originM = [centre[0] - widthM / 2, centre[1] - heightM / 2, offMm / 1000];
  }
}
