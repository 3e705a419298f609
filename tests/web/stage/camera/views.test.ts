import { describe, expect, it } from "vitest";
import type { Place } from "../../../../web/src/contract/types";
import { eye, sideways, towards } from "../../../../web/src/stage/camera/orbit";
import type { View } from "../../../../web/src/stage/types";
import {
  FIELD_OF_VIEW_RAD,
  fitDistance,
  type Hanging,
  mmPerPixelAt,
  placePose,
  viewLimits,
  viewPose,
} from "../../../../web/src/stage/camera/views";

const hanging: Hanging = {
  centre: [0, 1.5, 0.04],
  widthM: 0.4,
  heightM: 0.3,
  depthM: 0.038,
  spreadM: 0.063,
};

/** Where a point lies in the picture: from -1 to 1 inside it. */
function inPicture(
  view: View,
  aspect: number,
  point: readonly [number, number, number],
  hung: Hanging = hanging,
): [number, number] {
  const pose = viewPose(view, hung, aspect);
  const from = eye(pose);
  const { right, up } = sideways(pose);
  const way = towards(pose);
  const dot = (axis: readonly number[]): number =>
    point.reduce((sum, v, i) => sum + (v - (from[i] ?? 0)) * (axis[i] ?? 0), 0);
  const half = Math.tan(FIELD_OF_VIEW_RAD / 2) * -dot(way);
  return [dot(right) / (half * aspect), dot(up) / half];
}

describe("fitDistance", () => {
  it("fits a flat room by its tighter side", () => {
    const room = { middle: [0, 0, 0], half: [1, 0.5, 0] } as const;
    const look = { azimuthRad: 0, elevationRad: 0, room, fill: 1 };
    const tan = Math.tan(FIELD_OF_VIEW_RAD / 2);
    // derived: square picture: the width decides, 1 / tan; picture three times as wide: the height, 0.5 / tan.
    expect(fitDistance(look, 1)).toBeCloseTo(1 / tan, 12);
    expect(fitDistance(look, 3)).toBeCloseTo(0.5 / tan, 12);
  });

  it("stands further off by what comes nearer", () => {
    const tan = Math.tan(FIELD_OF_VIEW_RAD / 2);
    const room = { middle: [0, 0, 0], half: [1, 0.5, 0.25] } as const;
    // derived: the front of the room is 0.25 nearer.
    expect(fitDistance({ azimuthRad: 0, elevationRad: 0, room, fill: 1 }, 1)).toBeCloseTo(1 / tan + 0.25, 12);
  });
});

describe("viewPose", () => {
  it.each([0.5, 1, 16 / 9])("keeps the flat sheet in front of a picture of aspect %d", (aspect) => {
    for (const sx of [-1, 1]) {
      for (const sy of [-1, 1]) {
        const [x, y] = inPicture("front", aspect, [sx * 0.263, 1.5 + sy * 0.213, 0.04]);
        expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(0.9);
      }
    }
  });

  it.each(["front", "side", "back"] as const)("keeps the folded piece in the %s view", (view) => {
    for (const sx of [-1, 1]) {
      for (const sy of [-1, 1]) {
        for (const z of [0.002, 0.04]) {
          const [x, y] = inPicture(view, 1.4, [sx * 0.2, 1.5 + sy * 0.15, z]);
          expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(1);
        }
      }
    }
  });

  it("shows the upper left corner in the corner view", () => {
    const [x, y] = inPicture("corner", 1.4, [-0.2, 1.65, 0.04]);
    expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(0.8);
  });

  it.each(["side", "corner", "back"] as const)("shows all of a sheet that is not folded in the %s view", (view) => {
    for (const aspect of [0.45, 1, 2.2]) {
      for (const [sx, sy] of [
        [-1, -1],
        [-1, 1],
        [1, -1],
        [1, 1],
      ] as const) {
        const point = [sx * 0.263, 1.5 + sy * 0.213, 0.04] as const;
        const [x, y] = inPicture(view, aspect, point, {
          ...hanging,
          unfolded: true,
        });
        expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(0.93);
      }
    }
  });

  it("stands in front of the wall for all views but the back", () => {
    for (const view of ["front", "side", "corner"] as const) {
      expect(eye(viewPose(view, hanging, 1))[2]).toBeGreaterThan(0);
    }
    expect(eye(viewPose("back", hanging, 1))[2]).toBeLessThan(0);
  });
});

describe("with something beside", () => {
  const withDoor: Hanging = { ...hanging, beside: { rightM: 1.5, topM: 2.07, frontM: 0.07 } };

  it("lets the front view out until piece, neighbour and floor are seen", () => {
    for (const aspect of [0.45, 1, 2.2]) {
      for (const point of [
        [-0.2, 1.65, 0.04],
        [1.5, 2.07, 0.04],
        [1.5, 0, 0.04],
      ] as const) {
        for (const place of inPicture("front", aspect, point, withDoor)) expect(Math.abs(place)).toBeLessThan(1);
      }
    }
  });

  it("shows the feet of what stands out from the wall", () => {
    const withChair: Hanging = { ...hanging, beside: { rightM: 0.95, topM: 0.84, frontM: 0.5 } };
    for (const aspect of [0.45, 1, 2.2]) {
      for (const x of [0.51, 0.95]) {
        for (const place of inPicture("front", aspect, [x, 0, 0.5], withChair)) {
          expect(Math.abs(place)).toBeLessThan(0.97);
        }
      }
    }
  });

  it("leaves the other views with the piece, and lets every view be reached", () => {
    for (const view of ["side", "corner", "back"] as const) {
      expect(viewPose(view, withDoor, 1.4)).toEqual(viewPose(view, hanging, 1.4));
    }
    const { low, high, furthestM } = viewLimits(withDoor, 0.45);
    const { target, distanceM } = viewPose("front", withDoor, 0.45);
    expect(distanceM).toBeLessThan(furthestM);
    target.forEach((value, axis) => {
      expect(value).toBeGreaterThanOrEqual(low[axis] ?? 0);
      expect(value).toBeLessThanOrEqual(high[axis] ?? 0);
    });
  });
});

describe("placePose", () => {
  it("goes to where the place is seen", () => {
    const at = (place: Place): readonly [number, number, number] => eye(placePose(place, hanging, 1.4));
    expect(at("left")[0]).toBeLessThan(0);
    expect(at("right")[0]).toBeGreaterThan(0);
    expect(at("top")[1]).toBeGreaterThan(1.5 + 0.15);
    expect(at("bottom")[1]).toBeLessThan(1.5 - 0.15);
    expect(at("back")[2]).toBeLessThan(0);
    expect(at("sheet")).toEqual(at("face"));
    expect(at("picture")).toEqual(at("face"));
    expect(at("corners")).toEqual(eye(viewPose("corner", hanging, 1.4)));
  });
});

describe("viewLimits", () => {
  it("lets every view be reached", () => {
    for (const aspect of [0.45, 1, 2.2]) {
      const limits = viewLimits(hanging, aspect);
      for (const view of ["front", "side", "corner", "back"] as const) {
        const { distanceM, target } = viewPose(view, hanging, aspect);
        expect(distanceM).toBeGreaterThan(limits.nearestM);
        expect(distanceM).toBeLessThan(limits.furthestM);
        target.forEach((value, axis) => {
          expect(value).toBeGreaterThanOrEqual(limits.low[axis] ?? 0);
          expect(value).toBeLessThanOrEqual(limits.high[axis] ?? 0);
        });
      }
    }
  });
});

describe("mmPerPixelAt", () => {
  it("is the height of the picture at a depth over its pixels", () => {
    // derived: at 1 m the picture is 2 tan(14 degrees) = 0.498656 m high; over 1000 pixels 0.498656 mm each.
    expect(mmPerPixelAt(1, 1000)).toBeCloseTo(0.498656, 6);
  });
});
