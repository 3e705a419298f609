/** The materials of canvas and wood. */

import type { IUniform, Texture, Vector2, Vector4 } from "three";
import { DoubleSide, ShaderMaterial, Vector3 } from "three";
import { FITTING_FRAGMENT } from "./fitting_shaders";
import { TONED_VERTEX } from "./glsl";
import type { LookUniforms } from "./look_uniforms";
import { SHEET_FRAGMENT, SHEET_VERTEX, WOOD_FRAGMENT, WOOD_VERTEX } from "./piece_shaders";
import type { ShapeUniforms } from "./shape_uniforms";
import { CANVAS, linearColour, WOOD } from "./theme";
import type { SharedUniforms } from "./uniforms";

export interface SheetUniforms extends LookUniforms, ShapeUniforms {
  readonly picture: IUniform<Texture | null>;
  /** The piece's own rows of the texture: where they begin, and their share of it. */
  readonly uvRows: IUniform<Vector2>;
  /** The inked part of the texture: left, top, right, bottom, as shares. */
  readonly inked: IUniform<Vector4>;
}

export function sheetMaterial(shared: SharedUniforms, own: SheetUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...shared, ...own, canvasColour: { value: new Vector3(...linearColour(CANVAS)) } },
    vertexShader: SHEET_VERTEX,
    fragmentShader: SHEET_FRAGMENT,
    side: DoubleSide,
  });
}

export function woodMaterial(shared: SharedUniforms, own: ShapeUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: {
      ...shared,
      box: own.box,
      folded: own.folded,
      woodColour: { value: new Vector3(...linearColour(WOOD)) },
    },
    vertexShader: WOOD_VERTEX,
    fragmentShader: WOOD_FRAGMENT,
  });
}

export function fittingMaterial(shared: SharedUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...shared },
    vertexShader: TONED_VERTEX,
    fragmentShader: FITTING_FRAGMENT,
  });
}
