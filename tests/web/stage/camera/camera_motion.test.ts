import { describe, expect, it } from "vitest";
import { CameraMotion } from "../../../../web/src/stage/camera/camera_motion";
import type { Limits, Pose } from "../../../../web/src/stage/camera/orbit";

const limits: Limits = {
  nearestM: 0.2,
  furthestM: 5,
  low: [-1, 0, -1],
  high: [1, 3, 1],
};
const start: Pose = {
  azimuthRad: 0,
  elevationRad: 0,
  distanceM: 1,
  target: [0, 1.5, 0],
};
const side: Pose = { ...start, azimuthRad: -1, distanceM: 2 };

describe("CameraMotion", () => {
  it("glides to its goal and then rests", () => {
    const motion = new CameraMotion(start, limits, false);
    expect(motion.step(0.016)).toBe(false);
    motion.go(side);
    const azimuths = [0];
    let frames = 0;
    while (motion.step(1 / 60)) {
      frames += 1;
      azimuths.push(motion.pose.azimuthRad);
      expect(frames).toBeLessThan(200);
    }
    expect(frames).toBeGreaterThan(20);
    // derived: a critically damped glide from rest goes one way only.
    azimuths.slice(1).forEach((azimuth, i) => expect(azimuth).toBeLessThanOrEqual(azimuths[i] ?? 0));
    expect(motion.pose.azimuthRad).toBe(-1);
    expect(motion.pose.distanceM).toBeCloseTo(2, 12);
    expect(motion.step(1)).toBe(false);
  });

  it("jumps where motion is not wanted", () => {
    const motion = new CameraMotion(start, limits, true);
    motion.go(side);
    expect(motion.pose.azimuthRad).toBe(-1);
    expect(motion.step(0.016)).toBe(false);
  });

  it("takes the short way round to a named view", () => {
    const motion = new CameraMotion({ ...start, azimuthRad: 6 }, limits, true);
    motion.go({ ...start, azimuthRad: 0 });
    // derived: 6 rad is nearer to a full turn than to none.
    expect(motion.goal.azimuthRad).toBeCloseTo(2 * Math.PI, 12);
  });

  it("keeps within limits, also when they change", () => {
    const motion = new CameraMotion(start, limits, true);
    motion.steer({ ...start, distanceM: 50 });
    expect(motion.goal.distanceM).toBe(5);
    motion.setLimits({ ...limits, furthestM: 3 });
    expect(motion.goal.distanceM).toBe(3);
  });
});
