import { describe, expect, it } from "vitest";
import { checkMesh, checkPoints } from "../../../web/src/solid/checks";

const mesh = {
  lab: new Float32Array(9),
  srgb: new Uint8Array(9),
  triangles: new Uint32Array([0, 1, 2]),
};
const points = {
  lab: new Float32Array(6),
  printedLab: new Float32Array(6),
  srgb: new Uint8Array(6),
  share: new Float32Array(2),
  difference: new Float32Array(2),
};

describe("checkMesh", () => {
  it("takes a whole mesh", () => {
    expect(() => checkMesh(mesh)).not.toThrow();
  });

  it.each([
    [{ lab: new Float32Array(8) }, "solid.lab: expected three numbers a colour, got 8"],
    [{ srgb: new Uint8Array(6) }, "solid.srgb: expected 9 numbers, got 6"],
    [{ triangles: new Uint32Array([0, 1, 3]) }, "solid.triangles: expected less than 3, got 3"],
  ])("refuses %o", (wrong, message) => {
    expect(() => checkMesh({ ...mesh, ...wrong })).toThrow(message);
  });
});

describe("checkPoints", () => {
  it("takes whole points, and none", () => {
    expect(() => checkPoints(points)).not.toThrow();
  });

  it.each([
    [{ lab: new Float32Array(3) }, "points.lab: expected 6 numbers, got 3"],
    [{ printedLab: new Float32Array(9) }, "points.printedLab: expected 6 numbers, got 9"],
    [{ srgb: new Uint8Array(8) }, "points.srgb: expected 6 numbers, got 8"],
    [{ difference: new Float32Array(1) }, "points.difference: expected 2 numbers, got 1"],
  ])("refuses %o", (wrong, message) => {
    expect(() => checkPoints({ ...points, ...wrong })).toThrow(message);
  });
});
