/** The materials of canvas, wood and steel, and the uniforms that they share. */
import { DoubleSide, type IUniform, ShaderMaterial, type Texture, Vector2, Vector3, Vector4 } from "three";
import { ENCODE, LIGHT, TONED_VERTEX } from "../drawing/glsl";
import type { SharedUniforms } from "../drawing/uniforms";
import type { LookUniforms } from "../look/look_on_gpu";
import { CANVAS, linearColour, WOOD } from "../room/theme";
import type { StageSizes } from "../types";
import type { BarMesh } from "./bars";
import { SHEET_FRAGMENT, SHEET_VERTEX, WOOD_FRAGMENT, WOOD_VERTEX } from "./shaders";

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

/** The uniforms of a piece's measures, which its materials share. */

export interface ShapeUniforms {
  /** The opening between the bars (left, bottom, right, top), mm, and how deep it is. */
  readonly opening: IUniform<Vector4>;
  readonly openingDepth: IUniform<number>;
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
    openingDepth: { value: 1 },
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
  own.openingDepth.value = depthMm;
  own.box.value.set(width, height, depthMm, turnoverMm);
  if (corners === undefined) own.corners.value.set(0, 0);
  else own.corners.value.set(FINISH_NUMBER[corners.finish], OVER_NUMBER[corners.over]);
}

/** The shader of steel: a grey with a broad highlight. */

const FITTING_FRAGMENT = /* glsl */ `
varying float vTone;
varying vec3 vFlat;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
void main() {
  vec3 n = normalize(vFlat);
  vec3 towards = normalize(keyDirection * vec3(-1.0, 1.0, -1.0) + normalize(cameraPosition - vWorld));
  float glint = pow(max(dot(n, towards), 0.0), 24.0);
  vec3 light = roomLight(n, 1.0, 1.0);
  gl_FragColor = vec4(dithered(encode(vec3(0.44, 0.44, 0.45) * vTone * light + 0.35 * glint * light)), 1.0);
}
`;
