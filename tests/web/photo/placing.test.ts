import { expect, it } from "vitest";
import { distanceMm, frontOutline, hungSize, isSeen, keyStep } from "../../../web/src/photo/placing";
import { type Camera, placeAt, seenAt } from "../../../web/src/photo/plane";
import { paperWhite } from "../../../web/src/photo/light";
import { pieceMesh, FLOATS_PER_CORNER } from "../../../web/src/photo/piece_mesh";
import { edgeLine } from "../../../web/src/photo/lines";
import { stripFold } from "../stage/strip_fold";

/** Derived: a frontal camera 1000 mm away whose focal length is 1000 px; 1 mm of the wall is 1 px round (500, 400). */
const FRONTAL: Camera = [
  [1, 0, -0.5, 500],
  [0, -1, -0.4, 400],
  [0, 0, -0.001, 1],
];
const SIZE = { widthMm: 200, heightMm: 100, depthMm: 50 };

it("finds the place again that is seen at a point, on the wall and before it", () => {
  for (const z of [0, 38]) {
    const [x, y] = placeAt(FRONTAL, seenAt(FRONTAL, [120, -30, z]), z);
    expect(x).toBeCloseTo(120, 9);
    expect(y).toBeCloseTo(-30, 9);
  }
});

it("draws the front larger than its place on the wall, by its distance from the camera", () => {
  const [upperLeft, upperRight] = frontOutline(FRONTAL, [0, 0], SIZE);
  // Derived: 200 px at 1000 mm, seen from 950 mm.
  expect(upperRight[0] - upperLeft[0]).toBeCloseTo(200 / 0.95, 9);
});

it("sees a piece only before the camera and in the photograph", () => {
  expect(isSeen(FRONTAL, [0, 0], SIZE, [1000, 800])).toBe(true);
  expect(isSeen(FRONTAL, [900, 0], SIZE, [1000, 800])).toBe(false);
  expect(isSeen(FRONTAL, [0, 0], { ...SIZE, depthMm: 990 }, [1000, 800])).toBe(false);
});

it("measures gaps from the piece's own edges, and the floor from its middle", () => {
  const gaps = (["floor", "below", "above", "left", "right"] as const).map((kind) =>
    distanceMm({ kind, atMm: kind === "above" || kind === "right" ? 400 : -400 }, [10, 20], SIZE),
  );
  // Derived: 20 + 400; 420 - 50; 380 - 50; 410 - 100; 390 - 100.
  expect(gaps).toEqual([420, 370, 330, 310, 290]);
});

it("moves by one, and by ten with Shift, and by nothing else", () => {
  expect(keyStep({ key: "ArrowUp", shiftKey: false })).toEqual([0, 1]);
  expect(keyStep({ key: "ArrowLeft", shiftKey: true })).toEqual([-10, 0]);
  expect(keyStep({ key: "a", shiftKey: false })).toBeUndefined();
});

it("reads the paper's middle half", () => {
  const places = [0, 1, 2, 3, 4, 5, 6, 900].map((value) => [value, value, value] as const);
  // Derived: of eight places by brightness the third to the sixth.
  expect(paperWhite(places)).toEqual([3.5, 3.5, 3.5]);
});

it("takes the folded end of a fold, its face before the wall by the depth", () => {
  const fold = stripFold;
  const sizes = { faceWidthMm: 100, faceHeightMm: 60, depthMm: 20, turnoverMm: 0 };
  const piece = { fold, sizes, centreMm: [0, 0] as const };
  const mesh = pieceMesh(piece);
  expect(mesh.length).toBe(fold.triangles.length * FLOATS_PER_CORNER);
  const last = fold.positions.length - fold.uv.length * 1.5;
  const vertex = fold.triangles[0] ?? 0;
  expect(mesh[2]).toBeCloseTo((fold.positions[last + vertex * 3 + 2] ?? 0) + 20, 4);
  expect(hungSize([piece, { ...piece, centreMm: [130, 0] }]).widthMm).toBe(230);
});

it("draws a line of the wall as far as it lies before the camera", () => {
  const slanted: Camera = [FRONTAL[0], FRONTAL[1], [0.0005, 0, -0.001, 1]];
  const points = edgeLine(slanted, { kind: "floor", atMm: -300 }).split(" ");
  // Derived: the depth 1 + 0.0005 x is over 0.05 from x = -1900 on, in steps of 250 up to 20000.
  expect(points).toHaveLength(88);
});
