import { describe, expect, it } from "vitest";
import { extent, flatNormals, spread } from "../../../../web/src/stage/piece/flat_triangles";

describe("spread", () => {
  it("gives every corner its vertex's figures", () => {
    expect([...spread([1, 2, 3, 4], [1, 0, 1], 2)]).toEqual([3, 4, 1, 2, 3, 4]);
  });
});

describe("flatNormals", () => {
  it("points to where the corners run counter-clockwise", () => {
    const positions = new Float32Array([0, 0, 0, 2, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, -3, 0, 2, 0]);
    const normals = new Float32Array(positions.length);
    flatNormals(positions, normals);
    // derived: (2,0,0) x (0,2,0) = (0,0,4); (0,0,-3) x (0,2,0) = (6,0,0).
    [0, 0, 1, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 1, 0, 0].forEach((n, i) => expect(normals[i]).toBeCloseTo(n, 6));
  });

  it("keeps +z where a triangle has no area", () => {
    const normals = new Float32Array(9);
    flatNormals(new Float32Array([1, 1, 1, 1, 1, 1, 1, 1, 1]), normals);
    expect([...normals.slice(0, 3)]).toEqual([0, 0, 1]);
  });
});

describe("extent", () => {
  it("encloses every point", () => {
    expect(extent(new Float32Array([1, -2, 3, -4, 5, 0]))).toEqual({
      low: [-4, -2, 0],
      high: [1, 5, 3],
    });
  });
});
