/** The stage's camera: named views, movements by the user, and three's camera for a picture. */

import { PerspectiveCamera } from "three";
import type { Place } from "../../contract/types";
import { CameraMotion } from "./camera_motion";
import type { Wish } from "./gestures";
import { eye, panned, type Pose, towards, turned, zoomed } from "./orbit";
import type { View } from "../types";
import { FIELD_OF_VIEW_RAD, type Hanging, mmPerPixelAt, placePose, turnPose, viewLimits, viewPose } from "./views";

/** A turn of half a circle takes this many pixels. */
const HALF_TURN_PX = 620;
/** Of the page's picture at most this share is kept free at its foot. */
const MOST_FOOT = 0.45;

export interface CameraOptions {
  readonly reducedMotion: boolean;
  /** The named view has changed, or the camera has left it. */
  onView(view: View | "free"): void;
}

export class StageCamera {
  readonly camera = new PerspectiveCamera();
  private readonly motion: CameraMotion;
  private view: View | "free" = "front";
  private widthPx = 1;
  /** Without the foot. */
  private heightPx = 1;
  private footPx = 0;
  private squareness = 1;

  constructor(
    private hanging: Hanging,
    private readonly options: CameraOptions,
  ) {
    this.motion = new CameraMotion(viewPose("front", hanging, 1), viewLimits(hanging, 1), options.reducedMotion);
  }

  get aspect(): number {
    return this.widthPx / this.heightPx;
  }

  /** Another picture size, with a foot that what hangs keeps clear of: a named view is fitted again at once. */
  setSize(widthPx: number, heightPx: number, footPx = 0): void {
    this.widthPx = widthPx;
    this.footPx = Math.min(footPx, heightPx * MOST_FOOT);
    this.heightPx = heightPx - this.footPx;
    this.refit();
    if (this.view !== "free") this.motion.arrive();
  }

  /** Another piece on the wall: a named view glides to fit it. */
  setHanging(hanging: Hanging, atOnce: boolean): void {
    this.hanging = hanging;
    this.refit();
    if (atOnce) this.motion.arrive();
  }

  setView(view: View): void {
    this.name(view);
    this.motion.go(viewPose(view, this.hanging, this.aspect));
  }

  focusPlace(place: Place): void {
    this.name("free");
    this.motion.go(placePose(place, this.hanging, this.aspect));
  }

  /** Follow a movement of the pointer or the keys. */
  follow(wish: Wish): void {
    const { goal } = this.motion;
    const turn = Math.PI / HALF_TURN_PX;
    const metres = mmPerPixelAt(goal.distanceM, this.heightPx) / 1000;
    let pose: Pose = turned(goal, -wish.turnX * turn, wish.turnY * turn);
    pose = panned(pose, -wish.panX * metres, wish.panY * metres);
    this.name("free");
    this.motion.steer(zoomed(pose, wish.zoom));
  }

  /** Glide for so many seconds; whether it still moves. */
  step(dtS: number): boolean {
    return this.motion.step(dtS);
  }

  /** Millimetres of the face's plane under one CSS pixel, at the face's centre. */
  mmPerPixel(): number {
    const { pose } = this.motion;
    const direction = towards(pose);
    const from = eye(pose);
    // Depth of the face's centre: its distance from the eye, along the direction of sight.
    const depth = from.reduce(
      (sum, value, i) => sum + (value - (this.hanging.centre[i] ?? 0)) * (direction[i] ?? 0),
      0,
    );
    return mmPerPixelAt(Math.max(depth, this.camera.near), this.heightPx);
  }

  /** Set three's camera for the page's own picture: it goes on below what is fitted, by the height of the foot. */
  aimPage(): number {
    const { widthPx, heightPx, footPx } = this;
    const eyeM = this.aim(this.aspect);
    if (footPx > 0) this.camera.setViewOffset(widthPx, heightPx, 0, 0, widthPx, heightPx + footPx);
    return eyeM;
  }

  /** Set three's camera for a picture of an aspect; returns how far the eye is in front of the wall, in metres. */
  aim(aspect: number): number {
    // A narrower picture than the page's shows as much from side to side, and more upwards.
    return this.aimAt(this.motion.pose, aspect, Math.max(1, this.aspect / aspect));
  }

  /** The same from a named view, fitted to the aspect; the page's own view stays. */
  aimView(view: View, aspect: number): number {
    return this.aimAt(viewPose(view, this.hanging, aspect), aspect, 1);
  }

  /** The same for the piece turned round its upright axis by an angle, at a distance from which every turn fits. */
  aimTurn(turnRad: number, aspect: number): number {
    return this.aimAt(turnPose(turnRad, this.hanging, aspect), aspect, 1);
  }

  /** Whether the latest aim was not square on to the wall. */
  get oblique(): boolean {
    return this.squareness < 1 - 1e-6;
  }

  private aimAt(pose: Pose, aspect: number, wider: number): number {
    const from = eye(pose);
    this.camera.clearViewOffset();
    this.squareness = Math.abs(towards(pose)[2]);
    this.camera.fov = (2 * Math.atan(Math.tan(FIELD_OF_VIEW_RAD / 2) * wider) * 180) / Math.PI;
    this.camera.aspect = aspect;
    this.camera.near = Math.max(0.01, pose.distanceM * 0.08);
    this.camera.far = pose.distanceM + 30;
    this.camera.position.set(...from);
    this.camera.lookAt(...pose.target);
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
    return from[2];
  }

  private refit(): void {
    this.motion.setLimits(viewLimits(this.hanging, this.aspect));
    if (this.view !== "free") this.motion.go(viewPose(this.view, this.hanging, this.aspect));
  }

  private name(view: View | "free"): void {
    if (view === this.view) return;
    this.view = view;
    this.options.onView(view);
  }
}
