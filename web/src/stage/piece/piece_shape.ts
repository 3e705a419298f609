/** The shape of the piece at the present position of the fold, as numbers. */

import { type BarMesh, bars } from "./bars";
import { fittings } from "./fittings";
import { checkFold, clearances, frameMix, lineStrength, mixFigure, mixFrames, shownAt } from "./fold_frames";
import type { SolidMesh } from "../drawing/solids";
import { extent, flatNormals, spread } from "./flat_triangles";
import type { StageFold, StageSizes } from "../types";

/** The hanger holds the bars a little off the wall. */
const WALL_GAP_MM = 2;
/** From here on the fold counts as finished; a slider may stop a hair short of 1. */
const FINISHED = 0.9995;

export class PieceShape {
  /** (corners, 3), mm: the triangles' corners now. */
  readonly corners: Float32Array;
  readonly normals: Float32Array;
  readonly uv: Float32Array;
  /** (corners, 3), mm: the same on the flat sheet. */
  readonly sheet: Float32Array;
  /** (vertices, 3), mm. */
  readonly vertices: Float32Array;
  readonly bars: BarMesh;
  readonly fittings: SolidMesh;
  /** How far the flat sheet goes past the face, right and up. */
  readonly flatOverMm: readonly [number, number];
  /** How far the back of the bars hangs off the wall once all is folded. */
  readonly settledMm: number;
  /** The longer side of the flat sheet. */
  readonly longestMm: number;
  lineStrength = 1;
  /** Folded and stapled: only then is the canvas pulled tight over the edge, and the fittings are on. */
  finished = true;
  /** How far the face's plane is off the wall now. */
  offMm = 0;
  /** How far the sheet goes past the face now, right and up. */
  overMm: readonly [number, number] = [0, 0];
  private readonly clearMm: Float32Array;

  constructor(
    readonly fold: StageFold,
    readonly sizes: StageSizes,
  ) {
    checkFold(fold);
    const size = fold.uv.length * 1.5;
    this.vertices = fold.positions.slice(0, size);
    this.corners = spread(this.vertices, fold.triangles, 3);
    this.normals = new Float32Array(this.corners.length);
    this.uv = spread(fold.uv, fold.triangles, 2);
    this.sheet = this.corners.slice();
    this.clearMm = clearances(fold, sizes.depthMm);
    const { faceWidthMm: width, faceHeightMm: height, depthMm: depth } = sizes;
    const ownWidth = sizes.barWidthMm === undefined ? {} : { barWidthMm: sizes.barWidthMm };
    this.bars = bars({ widthMm: width, heightMm: height, depthMm: depth, ...ownWidth });
    this.fittings = fittings({
      widthMm: width,
      heightMm: height,
      depthMm: depth,
      turnoverMm: sizes.turnoverMm,
      barWidthMm: this.bars.barWidthMm,
      bulkMm: this.clearMm[fold.at.length - 1] ?? 0,
      weighsG: sizes.weighsG ?? 0,
    });
    const flat = extent(this.vertices);
    this.longestMm = Math.max(flat.high[0] - flat.low[0], flat.high[1] - flat.low[1]);
    this.flatOverMm = this.overhang();
    this.settledMm = WALL_GAP_MM + (this.clearMm[fold.at.length - 1] ?? 0);
    this.moveTo(1);
  }

  /** Bring everything to a position between flat (0) and folded (1). */
  moveTo(at: number): void {
    const shown = shownAt(at, this.fold.steps);
    this.finished = shown >= FINISHED;
    const frame = frameMix(this.fold.at, shown);
    mixFrames(this.fold, frame, this.vertices);
    spread(this.vertices, this.fold.triangles, 3, this.corners);
    flatNormals(this.corners, this.normals);
    this.lineStrength = lineStrength(shown);
    this.offMm = WALL_GAP_MM + this.sizes.depthMm + mixFigure(this.clearMm, frame);
    this.overMm = this.overhang();
  }

  private overhang(): readonly [number, number] {
    const { low, high } = extent(this.vertices);
    const past = (axis: 0 | 1, face: number): number => Math.max(0, -low[axis], high[axis] - face);
    return [past(0, this.sizes.faceWidthMm), past(1, this.sizes.faceHeightMm)];
  }
}
