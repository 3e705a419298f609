import { Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { NOTHING } from "../../../../web/src/stage/camera/gestures";
import { StageCamera } from "../../../../web/src/stage/camera/stage_camera";
import type { View } from "../../../../web/src/stage/types";
import type { Hanging } from "../../../../web/src/stage/camera/views";

const hanging: Hanging = {
  centre: [0, 1.5, 0.04],
  widthM: 0.4,
  heightM: 0.3,
  depthM: 0.038,
  spreadM: 0.063,
};

function made(): { sight: StageCamera; views: (View | "free")[] } {
  const views: (View | "free")[] = [];
  const sight = new StageCamera(hanging, {
    reducedMotion: true,
    onView: (view) => views.push(view),
  });
  sight.setSize(1200, 800);
  sight.aim(1.5);
  return { sight, views };
}

describe("StageCamera", () => {
  it("tells when the view changes, once each", () => {
    const { sight, views } = made();
    sight.setView("front");
    sight.setView("back");
    sight.setView("back");
    sight.follow({ ...NOTHING, turnX: 5 });
    sight.follow({ ...NOTHING, turnX: 5 });
    sight.setView("back");
    expect(views).toEqual(["back", "free", "back"]);
  });

  it("measures the face's plane as three draws it", () => {
    const { sight } = made();
    // derived: two points of the face 1 mm apart lie 1 / mmPerPixel pixels apart in a picture 1200 pixels wide.
    const screen = (x: number): number => new Vector3(x, 1.5, 0.04).project(sight.camera).x * 600;
    expect((screen(0.0005) - screen(-0.0005)) * sight.mmPerPixel()).toBeCloseTo(1, 6);
  });

  it("pans with the pointer: the face stays under it", () => {
    const { sight } = made();
    const before = new Vector3(0, 1.5, 0.021).project(sight.camera);
    sight.follow({ ...NOTHING, panX: 60, panY: -30 });
    sight.aim(1.5);
    const after = new Vector3(0, 1.5, 0.021).project(sight.camera);
    // derived: 60 of 1200 pixels are 0.1 of the picture from -1 to 1; 30 of 800 upwards are 0.075. The target is the
    // middle of the piece, 19 mm behind the face.
    expect(after.x - before.x).toBeCloseTo(0.1, 6);
    expect(after.y - before.y).toBeCloseTo(0.075, 6);
  });

  it("keeps the foot of the page's picture clear, and draws the same above it", () => {
    const { sight } = made();
    const corners = [-0.2, 0.2].flatMap((x) => [1.35, 1.65].map((y) => new Vector3(x, y, 0.04)));
    const seen = (heightPx: number): Vector3[] =>
      corners.map((corner) => {
        const { x, y, z } = corner.clone().project(sight.camera);
        return new Vector3(x, ((1 - y) / 2) * heightPx, z);
      });
    sight.setView("front");
    sight.setSize(1200, 600);
    sight.aimPage();
    const alone = seen(600);
    sight.setSize(1200, 800, 200);
    sight.aimPage();
    // derived: above a foot of 200 pixels lie 600, in which every point is where it is without the foot.
    for (const [place, point] of seen(800).entries()) {
      expect(point.distanceTo(alone[place] ?? new Vector3())).toBeLessThan(1e-6);
      expect(point.y).toBeLessThan(600);
    }
    // A still has no foot.
    sight.aim(2);
    expect(sight.camera.view?.enabled).toBe(false);
  });

  it("says how far it stands in front of the wall", () => {
    const { sight } = made();
    expect(sight.aim(1.5)).toBeGreaterThan(0.5);
    sight.setView("back");
    expect(sight.aim(1.5)).toBeLessThan(0);
  });

  it("shows as much from side to side in a narrow still as on the page", () => {
    const { sight } = made();
    const edge = new Vector3(0.26, 1.5, 0.04);
    const page = edge.clone().project(sight.camera).x;
    sight.aim(0.6);
    expect(edge.clone().project(sight.camera).x).toBeCloseTo(page, 9);
  });

  it("fits a larger piece without leaving the view", () => {
    const { sight, views } = made();
    const near = sight.aim(1.5);
    sight.setHanging({ ...hanging, widthM: 0.8, heightM: 0.6 }, false);
    expect(sight.aim(1.5)).toBeGreaterThan(near * 1.5);
    expect(views).toEqual([]);
  });
});
