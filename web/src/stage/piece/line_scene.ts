/** Crease and cut lines on the canvas: creases thin and dashed, cuts heavy and whole, both with a light rim. */

import {
  BufferAttribute,
  DynamicDrawUsage,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  ShaderMaterial,
} from "three";
import { FRAGMENT, VERTEX } from "./line_shaders";
import { spread } from "./flat_triangles";
import type { StageFold } from "../types";
import type { SharedUniforms } from "../drawing/uniforms";

/** The lines of one fold; pieces that share the fold share them. */
export interface LineScene {
  readonly material: ShaderMaterial;
  /** Replaced by `setFold`. */
  readonly geometry: InstancedBufferGeometry;
  readonly visible: boolean;
  /** Take the lines of another mesh of the canvas; `longestMm` is the sheet's longer side. */
  setFold(fold: StageFold, longestMm: number): void;
  /** Move them to the vertices' positions (vertices, 3), mm, and draw them so strongly (0 to 1). */
  move(positions: Float32Array, strength: number): void;
  dispose(): void;
}

export function lineScene(shared: SharedUniforms): LineScene {
  const own = { strength: { value: 1 }, dashMm: { value: 10 } };
  const material = new ShaderMaterial({
    uniforms: { viewport: shared.viewport, pixelRatio: shared.pixelRatio, ...own },
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    transparent: true,
    depthWrite: false,
  });
  let lines = new InstancedBufferGeometry();
  let visible = false;
  let starts = new Uint32Array(0);
  let finishes = new Uint32Array(0);
  let start = new InstancedBufferAttribute(new Float32Array(0), 3);
  let finish = new InstancedBufferAttribute(new Float32Array(0), 3);

  return {
    material,
    get geometry() {
      return lines;
    },
    get visible() {
      return visible;
    },
    setFold: (fold, longestMm) => {
      starts = fold.outlines.filter((_, i) => i % 2 === 0);
      finishes = fold.outlines.filter((_, i) => i % 2 === 1);
      start = new InstancedBufferAttribute(spread(fold.positions, starts, 3), 3).setUsage(DynamicDrawUsage);
      finish = new InstancedBufferAttribute(spread(fold.positions, finishes, 3), 3).setUsage(DynamicDrawUsage);
      const kind = new Float32Array(starts.length * 2);
      starts.forEach((_, i) => {
        kind[i * 2] = i < fold.creaseCount ? 0 : 1;
        kind[i * 2 + 1] = Math.hypot(
          finish.getX(i) - start.getX(i),
          finish.getY(i) - start.getY(i),
          finish.getZ(i) - start.getZ(i),
        );
      });
      const geometry = new InstancedBufferGeometry();
      geometry.setAttribute(
        "position",
        new BufferAttribute(new Float32Array([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0]), 3),
      );
      geometry.setIndex([0, 1, 2, 0, 2, 3]);
      geometry.setAttribute("start", start);
      geometry.setAttribute("finish", finish);
      geometry.setAttribute("kind", new InstancedBufferAttribute(kind, 2));
      geometry.instanceCount = starts.length;
      lines.dispose();
      lines = geometry;
      own.dashMm.value = Math.max(5, longestMm / 70);
    },
    move: (positions, strength) => {
      visible = strength > 0 && starts.length > 0;
      own.strength.value = strength;
      if (!visible) return;
      spread(positions, starts, 3, toFloats(start));
      spread(positions, finishes, 3, toFloats(finish));
      start.needsUpdate = true;
      finish.needsUpdate = true;
    },
    dispose: () => {
      lines.dispose();
      material.dispose();
    },
  };
}

/** The numbers behind an attribute made here. */
function toFloats(attribute: InstancedBufferAttribute): Float32Array {
  if (attribute.array instanceof Float32Array) return attribute.array;
  throw new TypeError("line attribute: expected Float32Array");
}
