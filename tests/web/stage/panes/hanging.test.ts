import { describe, expect, it } from "vitest";
import { apart, hangingOf } from "../../../../web/src/stage/panes/hanging";
import { PieceShape } from "../../../../web/src/stage/piece/piece_shape";
import { DEPTH_MM, HEIGHT_MM, REACH_MM, stripFold, stripSizes, WIDTH_MM } from "../strip_fold";

const shape = new PieceShape(stripFold, stripSizes);
const alone = [{ shape, centreMm: [0, 0] as const }];
const GAP_MM = 30;
const group = [-1, 0, 1].map((k) => ({
  shape,
  centreMm: [k * (WIDTH_MM + GAP_MM), 0] as const,
}));

describe("hangingOf", () => {
  it("hangs a face's middle at eye height, the folded bars just off the wall", () => {
    // common practice, no source: the middle at 1.5 m. derived: 2 mm of air and 38 mm of bars.
    const { centre, widthM, heightM, depthM, spreadM } = hangingOf([alone], false);
    expect(centre).toEqual([0, 1.5, (2 + DEPTH_MM) / 1000]);
    expect([widthM, heightM, depthM, spreadM]).toEqual([
      WIDTH_MM / 1000,
      HEIGHT_MM / 1000,
      DEPTH_MM / 1000,
      REACH_MM / 1000,
    ]);
  });

  it("gives a very tall face room above the floor", () => {
    const tall = new PieceShape(stripFold, {
      ...stripSizes,
      faceHeightMm: 4000,
    });
    // derived: 4 m / 2 + 0.25 m.
    expect(hangingOf([[{ shape: tall, centreMm: [0, 0] }]], false).centre[1]).toBeCloseTo(2.25, 12);
  });

  it("keeps a column's lowest sheet off the floor, and hangs it as high when it is folded", () => {
    const sizes = { ...stripSizes, faceWidthMm: 400, faceHeightMm: 500 };
    const panel = { sizes, settledMm: 2, flatOverMm: [60, 60] as const };
    const column = [-2, -1, 0, 1, 2].map((k) => ({ shape: panel, centreMm: [0, k * 530] as const }));
    // derived: open, middles are 500 + 2 x 60 x 1.12 = 634.4 mm apart; the lowest sheet ends 2 x 634.4 + 250 + 60 mm down; 30 mm are left.
    for (const open of [true, false]) expect(hangingOf([column], open).centre[1]).toBeCloseTo(1.6088, 9);
  });

  it("takes the largest of several panes in every measure", () => {
    const deep = new PieceShape(stripFold, {
      ...stripSizes,
      faceWidthMm: 100,
      depthMm: 50,
    });
    const { widthM, depthM } = hangingOf([alone, [{ shape: deep, centreMm: [0, 0] }]], false);
    expect([widthM, depthM]).toEqual([WIDTH_MM / 1000, 0.05]);
  });

  it("spans a group from its first face to its last", () => {
    // derived: 3 x 400 + 2 x 30.
    expect(hangingOf([group], false).widthM).toBeCloseTo(1.26, 12);
  });
});

describe("apart", () => {
  it("leaves a folded group where it hangs", () => {
    expect(
      apart(
        group,
        group.map(() => [0, 0]),
      ),
    ).toBe(1);
  });

  it("moves unfolded sheets so far that none lies on its neighbour", () => {
    // derived: between the middles 400 + 2 x 63 x 1.12 mm are needed and 430 mm are there.
    const times = apart(
      group,
      group.map(() => [REACH_MM, REACH_MM]),
    );
    expect(times).toBeCloseTo((400 + 2 * 63 * 1.12) / 430, 12);
    expect(times * 430).toBeGreaterThan(WIDTH_MM + 2 * REACH_MM);
  });

  it("looks upwards in a group hung one above the other", () => {
    const stack = [0, 330].map((y) => ({ shape, centreMm: [0, y] as const }));
    expect(
      apart(stack, [
        [500, 0],
        [500, 0],
      ]),
    ).toBe(1);
    // derived: 300 + 2 x 20 x 1.12 mm are needed and 330 mm are there.
    expect(
      apart(stack, [
        [0, 20],
        [0, 20],
      ]),
    ).toBeCloseTo(344.8 / 330, 12);
  });
});
