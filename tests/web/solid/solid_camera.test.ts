import { describe, expect, it } from "vitest";
import { Vector3 } from "three";
import { labPoint } from "../../../web/src/solid/lab_space";
import { homePose, SolidCamera, solidLimits } from "../../../web/src/solid/solid_camera";
import { hold } from "../../../web/src/stage/camera/orbit";
import { NOTHING } from "../../../web/src/stage/camera/gestures";

describe("homePose", () => {
  it.each([
    [80, 1.6],
    [140, 1.6],
    [100, 0.6],
  ])("shows all of axes of %d in a picture of aspect %d", (reach, aspect) => {
    const sight = new SolidCamera(true);
    sight.setSize(aspect * 600, 600);
    sight.setReach(reach);
    sight.step(0);
    const ends = [labPoint(0, 0, 0), labPoint(100, 0, 0)];
    for (const sign of [-1, 1]) ends.push(labPoint(0, sign * reach, 0), labPoint(0, 0, sign * reach));
    for (const end of ends) {
      const { x, y } = new Vector3(...end).project(sight.camera);
      expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(1);
    }
  });

  it("stands within its own limits", () => {
    const home = homePose(100, 1);
    expect(hold(home, solidLimits(home))).toEqual(home);
  });
});

describe("SolidCamera", () => {
  it("may look from below, where the stage would have a floor", () => {
    const sight = new SolidCamera(true);
    sight.setSize(600, 600);
    sight.follow({ ...NOTHING, turnY: -250 });
    sight.step(0);
    expect(sight.camera.position.y).toBeLessThan(labPoint(0, 0, 0)[1]);
  });

  it("comes home", () => {
    const sight = new SolidCamera(true);
    sight.setSize(600, 600);
    sight.step(0);
    const before = sight.camera.position.clone();
    sight.follow({ ...NOTHING, turnX: 100, zoom: 0.7 });
    sight.step(0);
    expect(sight.camera.position.distanceTo(before)).toBeGreaterThan(0.3);
    sight.goHome();
    sight.step(0);
    expect(sight.camera.position.distanceTo(before)).toBeLessThan(1e-9);
  });

  it("keeps a view that was turned by hand when the size changes", () => {
    const sight = new SolidCamera(true);
    sight.setSize(600, 600);
    sight.follow({ ...NOTHING, turnX: 100 });
    const { azimuthRad } = sight;
    sight.setSize(900, 600);
    expect(sight.azimuthRad).toBe(azimuthRad);
  });
});
