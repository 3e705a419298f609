/** Checks that the arrays given to the solid fit together. */

import type { SolidMesh, SolidPoints } from "./types";

function expectLength(name: string, list: ArrayLike<number>, length: number): void {
  if (list.length !== length) throw new RangeError(`${name}: expected ${length} numbers, got ${list.length}`);
}

export function checkMesh(mesh: SolidMesh): void {
  if (mesh.lab.length % 3 !== 0) {
    throw new RangeError(`solid.lab: expected three numbers a colour, got ${mesh.lab.length}`);
  }
  expectLength("solid.srgb", mesh.srgb, mesh.lab.length);
  const vertices = mesh.lab.length / 3;
  for (const index of mesh.triangles) {
    if (index >= vertices) throw new RangeError(`solid.triangles: expected less than ${vertices}, got ${index}`);
  }
}

export function checkPoints(points: SolidPoints): void {
  const count = points.share.length;
  expectLength("points.lab", points.lab, count * 3);
  expectLength("points.printedLab", points.printedLab, count * 3);
  expectLength("points.srgb", points.srgb, count * 3);
  expectLength("points.difference", points.difference, count);
}
