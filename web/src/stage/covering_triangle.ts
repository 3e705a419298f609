/** One triangle that covers the whole picture, in clip space: for what is drawn over every pixel. */

import { BufferAttribute, BufferGeometry } from "three";

export function coveringTriangle(): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3));
  return geometry;
}
