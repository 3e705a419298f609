/** Many straight lines of one width and one ink. */

import {
  BufferAttribute,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  type IUniform,
  Mesh,
  ShaderMaterial,
  type Vector3,
} from "three";
import { LINE_FRAGMENT, LINE_VERTEX } from "./shaders";
import type { SolidUniforms } from "./uniforms";

/** A difference above every threshold. */
const ALWAYS = 1e6;

export interface LineSet {
  /** (lines, 3) each. */
  readonly starts: Float32Array;
  readonly finishes: Float32Array;
  /** (lines): 0 to 1. */
  readonly strengths: Float32Array;
  /** (lines): drawn while above the threshold; without it they always are. */
  readonly differences?: Float32Array;
}

export interface Lines {
  readonly mesh: Mesh;
  set(lines: LineSet): void;
  dispose(): void;
}

export interface LineStyle {
  readonly widthPx: number;
  readonly ink: IUniform<Vector3>;
  readonly renderOrder: number;
}

export function lines(shared: SolidUniforms, style: LineStyle): Lines {
  const material = new ShaderMaterial({
    uniforms: { ...shared, ink: style.ink, widthPx: { value: style.widthPx } },
    vertexShader: LINE_VERTEX,
    fragmentShader: LINE_FRAGMENT,
    transparent: true,
    depthWrite: false,
  });
  const mesh = new Mesh(new InstancedBufferGeometry(), material);
  mesh.frustumCulled = false;
  mesh.renderOrder = style.renderOrder;
  mesh.visible = false;
  return {
    mesh,
    set: ({ starts, finishes, strengths, differences }) => {
      const count = strengths.length;
      const geometry = new InstancedBufferGeometry();
      geometry.setAttribute(
        "position",
        new BufferAttribute(new Float32Array([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0]), 3),
      );
      geometry.setIndex([0, 1, 2, 0, 2, 3]);
      const always = (): Float32Array => new Float32Array(count).fill(ALWAYS);
      geometry.setAttribute("start", new InstancedBufferAttribute(starts, 3));
      geometry.setAttribute("finish", new InstancedBufferAttribute(finishes, 3));
      geometry.setAttribute("strength", new InstancedBufferAttribute(strengths, 1));
      geometry.setAttribute("difference", new InstancedBufferAttribute(differences ?? always(), 1));
      geometry.instanceCount = count;
      mesh.geometry.dispose();
      mesh.geometry = geometry;
      mesh.visible = count > 0;
    },
    dispose: () => {
      mesh.geometry.dispose();
      material.dispose();
    },
  };
}
