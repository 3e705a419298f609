/** The materials of canvas and wood. */

import type { IUniform, Texture } from "three";
import { DoubleSide, ShaderMaterial, Vector3, Vector4 } from "three";
import type { LookUniforms } from "./look_uniforms";
import { SHEET_FRAGMENT, SHEET_VERTEX, WOOD_FRAGMENT, WOOD_VERTEX } from "./piece_shaders";
import { CANVAS, linearColour, WOOD } from "./theme";
import type { SharedUniforms } from "./uniforms";

export interface SheetUniforms extends LookUniforms {
  readonly picture: IUniform<Texture | null>;
  readonly opening: IUniform<Vector4>;
  readonly openingDeep: IUniform<number>;
}

export function sheetMaterial(shared: SharedUniforms, own: SheetUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...shared, ...own, canvasColour: { value: new Vector3(...linearColour(CANVAS)) } },
    vertexShader: SHEET_VERTEX,
    fragmentShader: SHEET_FRAGMENT,
    side: DoubleSide,
  });
}

export function woodMaterial(shared: SharedUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...shared, woodColour: { value: new Vector3(...linearColour(WOOD)) } },
    vertexShader: WOOD_VERTEX,
    fragmentShader: WOOD_FRAGMENT,
  });
}
