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
  LessDepth,
  Mesh,
  OneFactor,
  Scene,
  ShaderMaterial,
  Vector2,
} from "three";
import type { IUniform, Texture } from "three";
import { coveringTriangle } from "./covering_triangle";
import type { Ray } from "./light";
import { BLUR_FRAGMENT, BLUR_VERTEX, FRAGMENT, VERTEX } from "./shadow_shaders";

export interface ShadowScene {
  readonly scene: Scene;
  /** Smooths what `scene` has traced. */
  readonly blur: Scene;
  readonly traced: IUniform<Texture | null>;
  readonly texel: IUniform<number>;
  /** Casts the shadow; must hang where the piece hangs. */
  readonly caster: Mesh;
  readonly centre: Vector2;
  readonly half: Vector2;
  /** Take another piece: so many corners that move, and corners that stay (mm). */
  setCasters(moving: number, still: Float32Array): void;
  /** Move the moving corners (corners, 3), mm. */
  move(positions: Float32Array): void;
  dispose(): void;
}

export function shadowScene(rays: readonly Ray[]): ShadowScene {
  const centre = new Vector2();
  const half = new Vector2(1, 1);
  const material = new ShaderMaterial({
    uniforms: { centre: { value: centre }, halfSize: { value: half }, rays: { value: rays.length } },
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    side: DoubleSide,
    depthFunc: LessDepth,
    blending: CustomBlending,
    blendEquation: AddEquation,
    blendSrc: OneFactor,
    blendDst: OneFactor,
  });
  const carried = new Float32Array(rays.flatMap((ray) => [ray.slopeX, ray.slopeY, ray.key, ray.sky]));
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

  return {
    scene,
    blur,
    traced,
    texel,
    caster,
    centre,
    half,
    setCasters: (moving, still) => {
      corners = new Float32Array(moving * 3 + still.length);
      corners.set(still, moving * 3);
      attribute = new BufferAttribute(corners, 3).setUsage(DynamicDrawUsage);
      const geometry = new InstancedBufferGeometry();
      geometry.setAttribute("position", attribute);
      geometry.setAttribute("ray", new InstancedBufferAttribute(carried, 4));
      geometry.instanceCount = rays.length;
      caster.geometry.dispose();
      caster.geometry = geometry;
    },
    move: (positions) => {
      corners.set(positions);
      attribute.needsUpdate = true;
    },
    dispose: () => {
      for (const mesh of [caster, blurMesh]) mesh.geometry.dispose();
      for (const each of [material, blurMaterial]) each.dispose();
    },
  };
}
