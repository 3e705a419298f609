/** One piece on the wall: canvas, bars, fittings and lines, hung as one group. */

import { BufferGeometry, Group, Mesh, type Texture, Vector2, Vector4 } from "three";
import { atlasPart } from "./atlas";
import type { FoldOnGpu } from "./fold_on_gpu";
import type { LookOnGpu } from "../look/look_on_gpu";
import { fitShape, fittingMaterial, shapeUniforms, sheetMaterial, type SheetUniforms, woodMaterial } from "./materials";
import type { StagePiece } from "../types";
import type { SharedUniforms } from "../drawing/uniforms";

export interface PieceScene {
  readonly group: Group;
  /** Show a piece with geometry and texture that it may share with others. */
  setPiece(piece: StagePiece, fold: FoldOnGpu, texture: Texture): void;
  /** Hang the fold's origin here (metres), as the fold now is. */
  hangAt(originM: readonly [number, number, number]): void;
  dispose(): void;
}

export function pieceScene(shared: SharedUniforms, look: LookOnGpu): PieceScene {
  const form = shapeUniforms();
  const picture: SheetUniforms["picture"] = { value: null };
  const own: SheetUniforms = {
    ...look.uniforms,
    ...form,
    picture,
    uvRows: { value: new Vector2(0, 1) },
    inked: { value: new Vector4(0, 0, 1, 1) },
  };
  const canvas = sheetMaterial(shared, own);
  const wood = woodMaterial(shared, form);
  const steel = fittingMaterial(shared);
  const sheet = new Mesh(new BufferGeometry(), canvas);
  const frame = new Mesh(new BufferGeometry(), wood);
  const fittings = new Mesh(new BufferGeometry(), steel);
  const lines = new Mesh(new BufferGeometry(), canvas);
  lines.renderOrder = 2;
  const group = new Group();
  group.scale.setScalar(0.001);
  const meshes = [sheet, frame, fittings, lines];
  for (const mesh of meshes) mesh.frustumCulled = false;
  group.add(...meshes);
  let shown: FoldOnGpu | undefined;

  return {
    group,
    setPiece: (piece, fold, texture) => {
      const part = atlasPart(piece);
      own.uvRows.value.set(...part.rows);
      own.inked.value.set(...part.inked);
      picture.value = texture;
      if (fold === shown) return;
      shown = fold;
      fitShape(form, fold.shape);
      sheet.geometry = fold.sheet;
      frame.geometry = fold.bars;
      fittings.geometry = fold.fittings;
      lines.geometry = fold.lines.geometry;
      lines.material = fold.lines.material;
    },
    hangAt: (originM) => {
      const finished = shown?.shape.finished ?? false;
      form.folded.value = finished ? 1 : 0;
      fittings.visible = finished;
      lines.visible = shown?.lines.visible ?? false;
      group.position.set(...originM);
      group.updateMatrixWorld(true);
    },
    dispose: () => {
      for (const material of [canvas, wood, steel]) material.dispose();
    },
  };
}
