/** The edges of a surface that are worth a line: where two triangles meet at an angle. */

/** Pairs of vertices. `sharpRad` is the least angle between the two triangles' normals. */
export function sharpEdges(positions: Float32Array, triangles: Uint32Array, sharpRad: number): Uint32Array {
  const vertices = positions.length / 3;
  const normals = new Map<number, readonly [number, number, number]>();
  const found: number[] = [];
  const least = Math.cos(sharpRad);
  for (let t = 0; t < triangles.length; t += 3) {
    const corner = [triangles[t] ?? 0, triangles[t + 1] ?? 0, triangles[t + 2] ?? 0] as const;
    const normal = normalOf(positions, corner);
    for (const [k, from] of corner.entries()) {
      const to = corner[(k + 1) % 3] ?? 0;
      const key = Math.min(from, to) * vertices + Math.max(from, to);
      const other = normals.get(key);
      if (other === undefined) {
        normals.set(key, normal);
      } else if (other[0] * normal[0] + other[1] * normal[1] + other[2] * normal[2] < least) {
        found.push(from, to);
      }
    }
  }
  return new Uint32Array(found);
}

function normalOf(
  positions: Float32Array,
  [i, j, k]: readonly [number, number, number],
): readonly [number, number, number] {
  const side = (from: number, to: number, axis: number): number =>
    (positions[to * 3 + axis] ?? 0) - (positions[from * 3 + axis] ?? 0);
  const [ux, uy, uz] = [side(i, j, 0), side(i, j, 1), side(i, j, 2)];
  const [vx, vy, vz] = [side(i, k, 0), side(i, k, 1), side(i, k, 2)];
  const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx] as const;
  const length = Math.hypot(...normal);
  return length > 0 ? [normal[0] / length, normal[1] / length, normal[2] / length] : [0, 0, 0];
}
