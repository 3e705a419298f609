/** The object beside the piece: its solids or outline, and its soft shadows on wall and floor. */

import {
  BufferGeometry,
  CustomBlending,
  Group,
  Mesh,
  ShaderMaterial,
  SrcColorFactor,
  Vector3,
  ZeroFactor,
} from "three";
import type { Surroundings } from "../../contract/types";
import { BESIDE_GAP_M, neighbour, PERSON_M, type SoftShadow } from "./beside";
import {
  OUTLINE_FRAGMENT,
  OUTLINE_SHADOW_FRAGMENT,
  OUTLINE_VERTEX,
  SOFT_FRAGMENT,
  SOFT_VERTEX,
  SOLID_FRAGMENT,
} from "./beside_shaders";
import { geometryOf, solidGeometry } from "../drawing/geometry";
import { TONED_VERTEX } from "../drawing/glsl";
import { BESIDE, linearColour } from "./theme";
import type { SharedUniforms } from "../drawing/uniforms";
import type { Hanging } from "../camera/views";

/** Shadows lie this far in front of wall and floor, so that they never share their planes. */
const LIFT_M = 0.0015;
/** The outline's own picture goes past it by this much. */
const OUTLINE_HALF_M = 0.42;

export interface BesideScene {
  readonly group: Group;
  /** Stand something beside what hangs on the wall; gives its extent past the wall's middle line, for the camera. */
  set(beside: Surroundings["beside"], hanging: Hanging): Hanging["beside"];
  dispose(): void;
}

const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** The shadows as quads a little larger than they are; on the wall they move away from the light. */
function softGeometry(shadows: readonly SoftShadow[], key: Vector3): BufferGeometry {
  const positions: number[] = [];
  const offs: number[] = [];
  const rectangles: number[] = [];
  shadows.forEach(({ on, low, high, soft, dark, offM }, index) => {
    const half = [(high[0] - low[0]) / 2, (high[1] - low[1]) / 2] as const;
    const middle = [(high[0] + low[0]) / 2, (high[1] + low[1]) / 2] as const;
    const lift = LIFT_M + index * 0.0001;
    for (const [sx, sy] of CORNERS) {
      const [x, y] = [sx * (half[0] + soft), sy * (half[1] + soft)];
      if (on === "wall") {
        const [dx, dy] = [(-key.x / key.z) * offM, (-key.y / key.z) * offM];
        positions.push(middle[0] + x + dx, Math.max(0, middle[1] + y + dy), lift);
        offs.push(x, Math.max(0, middle[1] + y + dy) - middle[1] - dy);
      } else {
        // Turned over, so that it faces upwards.
        positions.push(middle[0] + x, lift, middle[1] - y);
        offs.push(x, y);
      }
      rectangles.push(half[0], half[1], soft, dark);
    }
  });
  return geometryOf({
    position: { width: 3, values: new Float32Array(positions) },
    off: { width: 2, values: new Float32Array(offs) },
    rectangle: { width: 4, values: new Float32Array(rectangles) },
  });
}

/** A quad upright at z that carries the outline's own frame in `uv`; its middle line at x. */
function outlineGeometry(x: number, z: number, shift: readonly [number, number]): BufferGeometry {
  const positions: number[] = [];
  const uv: number[] = [];
  for (const [sx, sy] of CORNERS) {
    const at = [sx * OUTLINE_HALF_M, sy < 0 ? 0 : PERSON_M + 0.12] as const;
    const y = Math.max(0, at[1] + shift[1]);
    positions.push(x + at[0] + shift[0], y, z);
    uv.push(at[0], y - shift[1]);
  }
  return geometryOf({
    position: { width: 3, values: new Float32Array(positions) },
    uv: { width: 2, values: new Float32Array(uv) },
  });
}

export function besideScene(shared: SharedUniforms): BesideScene {
  const colour = { value: new Vector3(...linearColour(BESIDE)) };
  const uniforms = { ...shared, besideColour: colour };
  const multiply = {
    transparent: true,
    depthWrite: false,
    blending: CustomBlending,
    blendSrc: ZeroFactor,
    blendDst: SrcColorFactor,
  } as const;
  const materials = {
    solid: new ShaderMaterial({ uniforms, vertexShader: TONED_VERTEX, fragmentShader: SOLID_FRAGMENT }),
    soft: new ShaderMaterial({ uniforms, vertexShader: SOFT_VERTEX, fragmentShader: SOFT_FRAGMENT, ...multiply }),
    shade: new ShaderMaterial({
      uniforms,
      vertexShader: OUTLINE_VERTEX,
      fragmentShader: OUTLINE_SHADOW_FRAGMENT,
      ...multiply,
    }),
    outline: new ShaderMaterial({
      uniforms,
      vertexShader: OUTLINE_VERTEX,
      fragmentShader: OUTLINE_FRAGMENT,
      transparent: true,
      depthWrite: false,
    }),
  };
  const meshes = {
    solid: new Mesh(new BufferGeometry(), materials.solid),
    soft: new Mesh(new BufferGeometry(), materials.soft),
    shade: new Mesh(new BufferGeometry(), materials.shade),
    outline: new Mesh(new BufferGeometry(), materials.outline),
  };
  const all = Object.values(meshes);
  const group = new Group();
  group.add(...all);
  all.forEach((mesh, order) => {
    mesh.frustumCulled = false;
    mesh.visible = false;
    // Shadows before what stands in front of them; everything after the room.
    mesh.renderOrder = 2 + order;
  });
  meshes.solid.renderOrder = 0;

  const show = (mesh: Mesh, geometry: BufferGeometry | undefined): void => {
    mesh.geometry.dispose();
    mesh.visible = geometry !== undefined;
    if (geometry !== undefined) mesh.geometry = geometry;
  };

  return {
    group,
    set: (beside, hanging) => {
      const standing = neighbour(beside);
      const key = shared.keyDirection.value;
      const outlined = standing?.outlineOffM;
      show(meshes.solid, standing && outlined === undefined ? solidGeometry(standing.solids) : undefined);
      show(meshes.soft, standing && softGeometry(standing.shadows, key));
      const middle = (standing?.widthM ?? 0) / 2;
      const shift = [(-key.x / key.z) * (outlined ?? 0), (-key.y / key.z) * (outlined ?? 0)] as const;
      show(meshes.shade, outlined === undefined ? undefined : outlineGeometry(middle, LIFT_M, shift));
      show(meshes.outline, outlined === undefined ? undefined : outlineGeometry(middle, outlined, [0, 0]));
      if (standing === undefined) return undefined;
      const leftM = hanging.centre[0] + hanging.widthM / 2 + hanging.spreadM + BESIDE_GAP_M;
      group.position.set(leftM, 0, 0);
      group.updateMatrixWorld(true);
      return { rightM: leftM + standing.widthM, topM: standing.heightM, frontM: standing.frontM };
    },
    dispose: () => {
      for (const mesh of all) mesh.geometry.dispose();
      for (const material of Object.values(materials)) material.dispose();
    },
  };
}
