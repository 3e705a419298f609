/** The camera about the solid: the stage's own motion, round the grey axis. */

import { PerspectiveCamera } from "three";
import { CameraMotion } from "../stage/camera/camera_motion";
import type { Wish } from "../stage/camera/gestures";
import { eye, type Limits, panned, type Point, type Pose, turned, zoomed } from "../stage/camera/orbit";
import { FIELD_OF_VIEW_RAD, fitDistance, mmPerPixelAt } from "../stage/camera/views";
import { labPoint } from "./lab_space";

/** A turn of half a circle takes this many pixels. */
const HALF_TURN_PX = 560;
const AZIMUTH_RAD = (-32 * Math.PI) / 180;
const ELEVATION_RAD = (17 * Math.PI) / 180;
const FILL = 0.98;
/** In an upright picture the figures of the ruler, whose size stays, need more of its width. */
const FILL_UPRIGHT = 0.87;

/** From where all of axes of a reach is seen, in a picture of width / height `aspect`. */
export function homePose(reach: number, aspect: number): Pose {
  const middle = labPoint(42, 0, 0);
  // The corners of the box stay empty: the axes end in the middle of its sides.
  const half: Point = [reach * 0.0078, 0.5, reach * 0.0078];
  const direction = { azimuthRad: AZIMUTH_RAD, elevationRad: ELEVATION_RAD };
  const fill = aspect < 1 ? FILL_UPRIGHT : FILL;
  return {
    ...direction,
    target: middle,
    distanceM: fitDistance({ ...direction, room: { middle, half }, fill }, aspect),
  };
}

export function solidLimits(home: Pose): Limits {
  return {
    nearestM: home.distanceM * 0.15,
    furthestM: home.distanceM * 1.8,
    low: labPoint(0, -100, 100),
    high: labPoint(100, 100, -100),
  };
}

export class SolidCamera {
  readonly camera = new PerspectiveCamera((FIELD_OF_VIEW_RAD * 180) / Math.PI);
  private readonly motion: CameraMotion;
  private reach = 100;
  private widthPx = 1;
  private heightPx = 1;
  /** The user has not moved the camera since it was last at home. */
  private home = true;

  constructor(reducedMotion: boolean) {
    const start = homePose(this.reach, 1);
    this.motion = new CameraMotion(start, solidLimits(start), reducedMotion);
  }

  get azimuthRad(): number {
    return this.motion.pose.azimuthRad;
  }

  setReach(reach: number): void {
    this.reach = reach;
    this.refit();
  }

  setSize(widthPx: number, heightPx: number): void {
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.refit();
  }

  goHome(): void {
    this.home = true;
    this.motion.go(homePose(this.reach, this.widthPx / this.heightPx));
  }

  /** Follow a movement of the pointer or the keys. */
  follow(wish: Wish): void {
    const { goal } = this.motion;
    const turn = Math.PI / HALF_TURN_PX;
    const units = mmPerPixelAt(goal.distanceM, this.heightPx) / 1000;
    let pose: Pose = turned(goal, -wish.turnX * turn, wish.turnY * turn);
    pose = panned(pose, -wish.panX * units, wish.panY * units);
    this.home = false;
    this.motion.steer(zoomed(pose, wish.zoom));
  }

  /** Glide for so many seconds, and set three's camera; whether it still moves. */
  step(dtS: number): boolean {
    const moving = this.motion.step(dtS);
    const { pose } = this.motion;
    this.camera.aspect = this.widthPx / this.heightPx;
    this.camera.near = pose.distanceM * 0.05;
    this.camera.far = pose.distanceM + 5;
    this.camera.position.set(...eye(pose));
    this.camera.lookAt(...pose.target);
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
    return moving;
  }

  private refit(): void {
    const home = homePose(this.reach, this.widthPx / this.heightPx);
    this.motion.setLimits(solidLimits(home));
    if (!this.home) return;
    this.motion.go(home);
    this.motion.arrive();
  }
}
