import { describe, expect, it } from "vitest";
import { PieceShape } from "../../../../web/src/stage/piece/piece_shape";
import { REACH_MM, stripFold, stripSizes } from "../strip_fold";

describe("PieceShape", () => {
  it("stands further off the wall while the turn-over swings behind the bars", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(0.5);
    // derived: 2 mm of air and the strip's 63 mm.
    expect(shape.offMm).toBeCloseTo(2 + REACH_MM, 3);
    const offs = [0.5, 0.6, 0.7, 0.8, 0.9, 1].map((at) => {
      shape.moveTo(at);
      return shape.offMm;
    });
    offs.slice(1).forEach((off, i) => expect(off).toBeLessThan(offs[i] ?? 0));
  });

  it("is the plane of the face when unfolded", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(0);
    expect(shape.corners.filter((_, i) => i % 3 === 2).every((z) => z === 0)).toBe(true);
    expect(shape.normals.filter((_, i) => i % 3 === 2).every((nz) => nz === 1)).toBe(true);
    expect(shape.lineStrength).toBe(1);
    expect(shape.overMm).toEqual([REACH_MM, 0]);
  });

  it("turns the side's normal to the right when folded", () => {
    const shape = new PieceShape(stripFold, stripSizes);
    shape.moveTo(1);
    const side = [...shape.normals.slice(18, 21)];
    [1, 0, 0].forEach((value, k) => expect(side[k]).toBeCloseTo(value, 6));
    expect(shape.lineStrength).toBe(0);
  });

  it("refuses a mesh that is not whole", () => {
    expect(() => new PieceShape({ ...stripFold, uv: new Float32Array(2) }, stripSizes)).toThrow("fold.positions");
  });
});
