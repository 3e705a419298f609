/** Numbers as geometry on the graphics processor. */

import { BufferAttribute, BufferGeometry } from "three";
import type { SolidMesh } from "./solids";

/** What each corner has: so many numbers of each kind. */
type CornerValues = Readonly<Record<string, { readonly width: number; readonly values: Float32Array }>>;

export function geometryOf(corners: CornerValues): BufferGeometry {
  const geometry = new BufferGeometry();
  for (const [name, { width, values }] of Object.entries(corners)) {
    geometry.setAttribute(name, new BufferAttribute(values, width));
  }
  return geometry;
}

export function solidGeometry({ positions, normals, tones }: SolidMesh): BufferGeometry {
  return geometryOf({
    position: { width: 3, values: positions },
    normal: { width: 3, values: normals },
    tone: { width: 1, values: tones },
  });
}
