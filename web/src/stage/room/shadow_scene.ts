/**
 * The shadow on the wall, as a picture of the wall's plane.
 *
 * The piece is laid flat on to the wall along many rays at once, one instance of its triangles per ray, and
 * what the rays carry adds up: an area light traced exactly, sharp where the piece touches the wall and soft
 * where it stands off. Each ray has a depth of its own, nearer than the ray's before, so that the depth test
 * lets every ray darken a pixel once, however many triangles lie on it.
 */

import {
  AddEquation,
  BufferAttribute,
  CustomBlending,
  DoubleSide,
  DynamicDrawUsage,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  type IUniform,
  LessDepth,
  Mesh,
  OneFactor,
  Scene,
  ShaderMaterial,
  type Texture,
  Vector2,
  WebGLRenderTarget,
} from "three";
import { coveringTriangle } from "../drawing/geometry";
import type { Ray } from "./light";
import { BLUR_FRAGMENT, BLUR_VERTEX, FRAGMENT, VERTEX } from "./shadow_shaders";

/** Side of the shadow's picture; a group spreads over a wider part of the wall. */
const SHADOW_PX = 384;
const GROUP_SHADOW_PX = 640;

export interface ShadowScene {
  readonly scene: Scene;
  /** Smooths what `scene` has traced. */
  readonly blur: Scene;
  readonly traced: IUniform<Texture | null>;
  readonly texel: IUniform<number>;
  readonly centre: Vector2;
  readonly half: Vector2;
  /** The finished shadow: key in red, sky in green. */
  readonly target: WebGLRenderTarget;
  /** Light from elsewhere. */
  setRays(rays: readonly Ray[]): void;
  /** Take other pieces: of each so many corners that move, and corners that stay (mm). */
  setCasters(pieces: readonly Caster[]): void;
  /** Hang every piece where it is now, and move its corners; in the order of `setCasters`. */
  move(pieces: readonly MovedCaster[]): void;
  dispose(): void;
}

export interface Caster {
  readonly moving: number;
  readonly still: Float32Array;
}

export interface MovedCaster {
  /** Where the piece's own origin is, metres. */
  readonly originM: readonly [number, number, number];
  /** (corners, 3), mm, about the piece's own origin. */
  readonly corners: Float32Array;
}

/** Slopes and weights as the shader takes them. */
function carriedBy(rays: readonly Ray[]): Float32Array {
  return new Float32Array(rays.flatMap((ray) => [ray.slopeX, ray.slopeY, ray.key, ray.sky]));
}

/**
 * Of all that hangs in one pane. The pieces are laid down together, ray by ray: a pixel that two of them shade
 * along the same ray is darkened once.
 */
export function shadowScene(first: readonly Ray[]): ShadowScene {
  const centre = new Vector2();
  const half = new Vector2(1, 1);
  const rayCount = { value: first.length };
  const material = new ShaderMaterial({
    uniforms: { centre: { value: centre }, halfSize: { value: half }, rays: rayCount },
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    side: DoubleSide,
    depthFunc: LessDepth,
    blending: CustomBlending,
    blendEquation: AddEquation,
    blendSrc: OneFactor,
    blendDst: OneFactor,
  });
  const target = new WebGLRenderTarget(SHADOW_PX, SHADOW_PX, { depthBuffer: false });
  let rays = carriedBy(first);
  const caster = new Mesh(new InstancedBufferGeometry(), material);
  caster.frustumCulled = false;
  const scene = new Scene();
  scene.add(caster);
  const traced: IUniform<Texture | null> = { value: null };
  const texel = { value: 0 };
  const blurMaterial = new ShaderMaterial({
    uniforms: { traced, texel },
    vertexShader: BLUR_VERTEX,
    fragmentShader: BLUR_FRAGMENT,
    depthTest: false,
    depthWrite: false,
  });
  const blurMesh = new Mesh(coveringTriangle(), blurMaterial);
  blurMesh.frustumCulled = false;
  const blur = new Scene();
  blur.add(blurMesh);
  let corners = new Float32Array(0);
  let attribute = new BufferAttribute(corners, 3);
  let casters: readonly Caster[] = [];

  const rebuild = (): void => {
    attribute = new BufferAttribute(corners, 3).setUsage(DynamicDrawUsage);
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute("position", attribute);
    geometry.setAttribute("ray", new InstancedBufferAttribute(rays, 4));
    geometry.instanceCount = rays.length / 4;
    rayCount.value = rays.length / 4;
    caster.geometry.dispose();
    caster.geometry = geometry;
  };

  return {
    scene,
    blur,
    traced,
    texel,
    centre,
    half,
    target,
    setRays: (given) => {
      rays = carriedBy(given);
      rebuild();
    },
    setCasters: (pieces) => {
      casters = pieces;
      corners = new Float32Array(pieces.reduce((sum, { moving, still }) => sum + moving * 3 + still.length, 0));
      const pixels = pieces.length > 1 ? GROUP_SHADOW_PX : SHADOW_PX;
      target.setSize(pixels, pixels);
      rebuild();
    },
    move: (pieces) => {
      let place = 0;
      pieces.forEach(({ originM, corners: moved }, i) => {
        for (const part of [moved, casters[i]?.still ?? moved.subarray(0, 0)]) {
          for (let k = 0; k < part.length; k += 1) {
            corners[place + k] = (part[k] ?? 0) / 1000 + (originM[k % 3] ?? 0);
          }
          place += part.length;
        }
      });
      attribute.needsUpdate = true;
    },
    dispose: () => {
      for (const mesh of [caster, blurMesh]) mesh.geometry.dispose();
      for (const each of [material, blurMaterial]) each.dispose();
      target.dispose();
    },
  };
}
