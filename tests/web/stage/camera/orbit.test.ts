import { describe, expect, it } from "vitest";
import {
  ABOVE_FLOOR_M,
  eye,
  hold,
  type Limits,
  nearestTurn,
  panned,
  type Pose,
  sideways,
  STEEPEST_RAD,
  towards,
  turned,
  zoomed,
} from "../../../../web/src/stage/camera/orbit";

const pose: Pose = {
  azimuthRad: 0,
  elevationRad: 0,
  distanceM: 2,
  target: [0, 1.5, 0],
};
const limits: Limits = {
  nearestM: 0.5,
  furthestM: 4,
  low: [-1, 1, -0.1],
  high: [1, 2, 0.1],
};

describe("eye", () => {
  it("stands in front of the face at no angle", () => {
    expect(eye(pose)).toEqual([0, 1.5, 2]);
  });

  it("stands on the right at a quarter turn, above at an elevation", () => {
    const [x, y, z] = eye({
      ...pose,
      azimuthRad: Math.PI / 2,
      elevationRad: Math.PI / 6,
    });
    // derived: 2 cos 30 = 1.7321 to the right, 1.5 + 2 sin 30 = 2.5 up.
    expect(x).toBeCloseTo(1.7321, 4);
    expect(y).toBeCloseTo(2.5, 12);
    expect(z).toBeCloseTo(0, 12);
  });
});

describe("sideways", () => {
  it("makes a right-handed frame with the way to the eye", () => {
    for (const [azimuthRad, elevationRad] of [
      [0, 0],
      [1, 0.4],
      [-2.5, -0.7],
    ] as const) {
      const { right, up } = sideways({ azimuthRad, elevationRad });
      const way = towards({ azimuthRad, elevationRad });
      // derived: right x up = the way to the eye.
      expect(right[1] * up[2] - right[2] * up[1]).toBeCloseTo(way[0], 12);
      expect(right[2] * up[0] - right[0] * up[2]).toBeCloseTo(way[1], 12);
      expect(right[0] * up[1] - right[1] * up[0]).toBeCloseTo(way[2], 12);
    }
  });
});

describe("hold", () => {
  it("leaves a pose within the limits alone", () => {
    expect(hold(pose, limits)).toEqual(pose);
  });

  it("brings distance, target and steepness back", () => {
    const held = hold({ azimuthRad: 9, elevationRad: 3, distanceM: 99, target: [5, 5, 5] }, limits);
    expect(held).toEqual({
      azimuthRad: 9,
      elevationRad: STEEPEST_RAD,
      distanceM: 4,
      target: [1, 2, 0.1],
    });
  });

  it("keeps the eye above the floor", () => {
    const held = hold({ ...pose, distanceM: 4, elevationRad: -1.2 }, limits);
    expect(eye(held)[1]).toBeCloseTo(ABOVE_FLOOR_M, 9);
  });
});

describe("nearestTurn", () => {
  it("goes the short way round", () => {
    // derived: 350 degrees is 10 degrees before a full turn.
    const degree = Math.PI / 180;
    expect(nearestTurn(350 * degree, 0)).toBeCloseTo(-10 * degree, 12);
    expect(nearestTurn(0, 700 * degree)).toBeCloseTo(720 * degree, 12);
  });
});

describe("panned, turned, zoomed", () => {
  it("moves the target across the sight", () => {
    expect(panned(pose, 0.2, -0.1).target).toEqual([0.2, 1.4, 0]);
    const [x, , z] = panned({ ...pose, azimuthRad: Math.PI }, 0.2, 0).target;
    // derived: seen from behind, right is the wall's left.
    expect(x).toBeCloseTo(-0.2, 12);
    expect(z).toBeCloseTo(0, 12);
  });

  it("adds angles and scales the distance", () => {
    expect(turned(pose, 0.5, -0.25)).toEqual({
      ...pose,
      azimuthRad: 0.5,
      elevationRad: -0.25,
    });
    expect(zoomed(pose, 0.5).distanceM).toBe(1);
  });
});
