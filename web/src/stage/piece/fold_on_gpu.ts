/** One fold as geometry: sheet, bars, fittings and lines. Pieces that fold alike share it, so that it moves and lies there once. */

import { BufferAttribute, type BufferGeometry, DynamicDrawUsage } from "three";
import type { BarMesh } from "./bars";
import { geometryOf, solidGeometry } from "../drawing/geometry";
import { lineScene, type LineScene } from "./line_scene";
import { PieceShape } from "./piece_shape";
import type { StageFold, StageSizes } from "../types";
import type { SharedUniforms } from "../drawing/uniforms";

function barGeometry({ positions, normals, grain }: BarMesh): BufferGeometry {
  return geometryOf({
    position: { width: 3, values: positions },
    normal: { width: 3, values: normals },
    grain: { width: 3, values: grain },
  });
}

function sheetGeometry({ corners, normals, uv, sheet }: PieceShape): BufferGeometry {
  const geometry = geometryOf({ uv: { width: 2, values: uv }, sheet: { width: 3, values: sheet } });
  geometry.setAttribute("position", new BufferAttribute(corners, 3).setUsage(DynamicDrawUsage));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3).setUsage(DynamicDrawUsage));
  return geometry;
}

export class FoldOnGpu {
  readonly shape: PieceShape;
  readonly sheet: BufferGeometry;
  readonly bars: BufferGeometry;
  readonly fittings: BufferGeometry;
  readonly lines: LineScene;

  constructor(shared: SharedUniforms, fold: StageFold, sizes: StageSizes) {
    this.shape = new PieceShape(fold, sizes);
    this.sheet = sheetGeometry(this.shape);
    this.bars = barGeometry(this.shape.bars);
    this.fittings = solidGeometry(this.shape.fittings);
    this.lines = lineScene(shared);
    this.lines.setFold(fold, this.shape.longestMm);
  }

  /** Bring everything to a position between flat (0) and folded (1). */
  moveTo(at: number): void {
    this.shape.moveTo(at);
    for (const name of ["position", "normal"]) this.sheet.getAttribute(name).needsUpdate = true;
    this.lines.move(this.shape.vertices, this.shape.lineStrength);
  }

  dispose(): void {
    this.sheet.dispose();
    this.bars.dispose();
    this.fittings.dispose();
    this.lines.dispose();
  }
}

/** What a piece is folded from. */
export interface Folded {
  readonly fold: StageFold;
  readonly sizes: StageSizes;
}

function same(one: StageSizes, other: StageSizes): boolean {
  return (
    one.faceWidthMm === other.faceWidthMm &&
    one.faceHeightMm === other.faceHeightMm &&
    one.depthMm === other.depthMm &&
    one.turnoverMm === other.turnoverMm &&
    one.barWidthMm === other.barWidthMm &&
    one.corners?.finish === other.corners?.finish &&
    one.corners?.over === other.corners?.over
  );
}

/** The folds on the stage: the same fold object with the same sizes is kept once. */
export class FoldStore {
  private kept: readonly FoldOnGpu[] = [];

  constructor(private readonly shared: SharedUniforms) {}

  get all(): readonly FoldOnGpu[] {
    return this.kept;
  }

  /** Keep exactly these; gives the geometry of each, in order. */
  keep(wanted: readonly Folded[]): readonly FoldOnGpu[] {
    const next: FoldOnGpu[] = [];
    const of = ({ fold, sizes }: Folded): FoldOnGpu => {
      const is = ({ shape }: FoldOnGpu): boolean => shape.fold === fold && same(shape.sizes, sizes);
      const known = next.find(is);
      if (known !== undefined) return known;
      const made = this.kept.find(is) ?? new FoldOnGpu(this.shared, fold, sizes);
      next.push(made);
      return made;
    };
    const given = wanted.map(of);
    for (const former of this.kept) if (!next.includes(former)) former.dispose();
    this.kept = next;
    return given;
  }

  /** Free the memory on the graphics processor; the next drawing uploads what it needs. */
  dispose(): void {
    for (const fold of this.kept) fold.dispose();
  }
}
