import { describe, expect, it } from "vitest";
import { PieceShape } from "../../../web/src/stage/piece_shape";
import { DEPTH_MM, HEIGHT_MM, REACH_MM, stripFold, stripSizes, WIDTH_MM } from "./strip_fold";

describe("PieceShape", () => {
  it("hangs the face's middle at eye height, the folded bars just off the wall", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    // common practice, no source: the middle at 1.5 m. derived: the origin is the face's lower left corner; 2 mm of
    // air and 38 mm of bars lie between wall and face.
    expect(shape.originM[0]).toBeCloseTo(-WIDTH_MM / 2000, 12);
    expect(shape.originM[1]).toBeCloseTo(1.5 - HEIGHT_MM / 2000, 12);
    expect(shape.originM[2]).toBeCloseTo((2 + DEPTH_MM) / 1000, 9);
    expect(shape.hanging.centre[2]).toBeCloseTo(0.04, 9);
  });

  it("stands further off the wall while the turn-over swings behind the bars", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(0.5);
    // derived: 2 mm of air and the strip's 63 mm.
    expect(shape.originM[2]).toBeCloseTo((2 + REACH_MM) / 1000, 6);
    const offs = [0.5, 0.6, 0.7, 0.8, 0.9, 1].map((at) => {
      shape.moveTo(at);
      return shape.originM[2];
    });
    offs.slice(1).forEach((off, i) => expect(off).toBeLessThan(offs[i] ?? 0));
  });

  it("is the plane of the face when unfolded", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(0);
    expect(shape.corners.filter((_, i) => i % 3 === 2).every((z) => z === 0)).toBe(true);
    expect(shape.normals.filter((_, i) => i % 3 === 2).every((nz) => nz === 1)).toBe(true);
    expect(shape.lineStrength).toBe(1);
  });

  it("turns the side's normal to the right when folded", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(1);
    const side = [...shape.normals.slice(18, 21)];
    [1, 0, 0].forEach((value, k) => expect(side[k]).toBeCloseTo(value, 6));
    expect(shape.lineStrength).toBe(0);
  });

  it("gives a very tall face room above the floor", () => {
    const tall = new PieceShape(stripFold, { ...stripSizes, faceHeightMm: 4000 });
    // derived: 4 m / 2 + 0.25 m.
    expect(tall.hanging.centre[1]).toBeCloseTo(2.25, 12);
  });

  it("refuses a mesh that is not whole", () => {
    expect(() => new PieceShape({ ...stripFold, uv: new Float32Array(2) }, stripSizes)).toThrow("fold.positions");
  });
});
