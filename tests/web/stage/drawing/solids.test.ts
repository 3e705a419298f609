import { describe, expect, it } from "vitest";
import { type SolidMesh, Solids } from "../../../../web/src/stage/drawing/solids";

/** Volume by the divergence theorem, and whether every normal is that of its triangle. */
function volume({ positions, normals }: SolidMesh): number {
  let sum = 0;
  for (let i = 0; i < positions.length; i += 9) {
    const at = (k: number): number => positions[i + k] ?? 0;
    const u = [at(3) - at(0), at(4) - at(1), at(5) - at(2)] as const;
    const v = [at(6) - at(0), at(7) - at(1), at(8) - at(2)] as const;
    const cross = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const length = Math.hypot(...cross);
    cross.forEach((value, k) => expect(value / length).toBeCloseTo(normals[i + k] ?? 0, 4));
    sum += (at(0) * (cross[0] ?? 0) + at(1) * (cross[1] ?? 0) + at(2) * (cross[2] ?? 0)) / 6;
  }
  return sum;
}

describe("Solids", () => {
  it("makes closed boxes that face outwards, turned or not", () => {
    // derived: 2 x 3 x 4 = 24; turning keeps the volume.
    for (const turn of [0, 0.7]) {
      const solids = new Solids();
      solids.box([1, 1, 1], [3, 4, 5], 0.5, turn);
      expect(volume(solids.mesh())).toBeCloseTo(24, 3);
    }
  });

  it("makes rods of six sides that face outwards", () => {
    const solids = new Solids();
    solids.rod(
      [
        [0, 0, 0],
        [10, 0, 0],
      ],
      1,
      1,
    );
    // derived: without its ends a hexagonal rod has 2/3 of the sum over a closed one about its own middle... the ends
    // at x = 0 and x = 10 would add 10 x area / 3, so the sides alone give 2/3 x 10 x (3 sqrt 3 / 2) = 17.3205.
    expect(volume(solids.mesh())).toBeCloseTo(10 * Math.sqrt(3), 4);
  });
});
