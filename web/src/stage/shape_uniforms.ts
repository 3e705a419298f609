/** The measures of a piece that its materials share. */

import type { IUniform } from "three";
import { Vector2, Vector4 } from "three";
import type { BarMesh } from "./bars";
import type { StageSizes } from "./types";

export interface ShapeUniforms {
  /** The opening between the bars (left, bottom, right, top), mm, and how deep it is. */
  readonly opening: IUniform<Vector4>;
  readonly openingDeep: IUniform<number>;
  /** Width and height of the face, depth of the bars, turn-over, mm. */
  readonly box: IUniform<Vector4>;
  /** Corner finish and over pair, as numbers; see `canvas_shaders.ts`. */
  readonly corners: IUniform<Vector2>;
  /** 1 with the canvas folded, 0 on the way there. */
  readonly folded: IUniform<number>;
}

const FINISH_NUMBER = { tucked: 1, lapped: 2, trimmed: 3 } as const;
const OVER_NUMBER = { "top-bottom": 0, "left-right": 1 } as const;

export function shapeUniforms(): ShapeUniforms {
  return {
    opening: { value: new Vector4() },
    openingDeep: { value: 1 },
    box: { value: new Vector4(1, 1, 1, 0) },
    corners: { value: new Vector2() },
    folded: { value: 0 },
  };
}

/** Take another piece. */
export function fitShape(own: ShapeUniforms, shape: { readonly sizes: StageSizes; readonly bars: BarMesh }): void {
  const { faceWidthMm: width, faceHeightMm: height, depthMm, turnoverMm, corners } = shape.sizes;
  const inset = shape.bars.barWidthMm;
  own.opening.value.set(inset, inset, width - inset, height - inset);
  own.openingDeep.value = depthMm;
  own.box.value.set(width, height, depthMm, turnoverMm);
  if (corners === undefined) own.corners.value.set(0, 0);
  else own.corners.value.set(FINISH_NUMBER[corners.finish], OVER_NUMBER[corners.over]);
}
