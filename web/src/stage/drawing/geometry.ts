/** Geometries from arrays of numbers, and one that covers the picture. */
import { BufferAttribute, BufferGeometry } from "three";
import type { SolidMesh } from "./solids";

/** The attributes of each corner: `width` numbers of each name. */
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

/** One triangle that covers the whole picture, in clip space: for what is drawn over every pixel. */

export function coveringTriangle(): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3));
  return geometry;
}
