/** A made-up fold for the stage's tests: a face and, on its right, one side that folds back by a quarter turn. */

import type { StageFold, StageSizes } from "../../../web/src/stage/types";

export const WIDTH_MM = 400;
export const HEIGHT_MM = 300;
export const DEPTH_MM = 38;
/** Of the strip: side and turn-over in one, so that it sticks out behind the bars until the last frame. */
export const REACH_MM = 63;

export const stripSizes: StageSizes = {
  faceWidthMm: WIDTH_MM,
  faceHeightMm: HEIGHT_MM,
  depthMm: DEPTH_MM,
  turnoverMm: REACH_MM - DEPTH_MM,
};

const face = [0, 0, 0, WIDTH_MM, 0, 0, WIDTH_MM, HEIGHT_MM, 0, 0, HEIGHT_MM, 0];

/** The outer end of the strip: flat, folded back by a quarter turn, and (not rigid, only for the test) tucked in. */
const ends: readonly (readonly [number, number])[] = [
  [WIDTH_MM + REACH_MM, 0],
  [WIDTH_MM, -REACH_MM],
  [WIDTH_MM, -DEPTH_MM],
];

export const stripFold: StageFold = {
  at: [0, 0.5, 1],
  positions: new Float32Array(ends.flatMap(([x, z]) => [...face, x, 0, z, x, HEIGHT_MM, z])),
  uv: new Float32Array([0, 1, 0.8, 1, 0.8, 0, 0, 0, 1, 1, 1, 0]),
  triangles: new Uint32Array([0, 1, 2, 0, 2, 3, 1, 4, 5, 1, 5, 2]),
  outlines: new Uint32Array([1, 2, 0, 1, 1, 4]),
  creaseCount: 1,
  steps: [
    { name: "first", label: "Fold the side", start: 0, end: 0.5 },
    { name: "second", label: "Tuck", start: 0.5, end: 1 },
  ],
};
