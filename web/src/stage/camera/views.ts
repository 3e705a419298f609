/** The named views and the places of notes: from where each is seen, and what must be in the picture. */

import type { Place } from "../../contract/types";
import { type Limits, type Point, type Pose, sideways, towards } from "./orbit";
import type { View } from "../types";

/** Upright opening angle of the camera: a long lens, so that the piece keeps its shape. */
export const FIELD_OF_VIEW_RAD = (28 * Math.PI) / 180;

/** The piece on the wall, in metres. */
export interface Hanging {
  /** The middle of the face. */
  readonly centre: Point;
  readonly widthM: number;
  readonly heightM: number;
  readonly depthM: number;
  /** How far the flat sheet goes past the face on every side. */
  readonly spreadM: number;
  /** What stands beside it on the floor, from the face's right on: its right end and its top. */
  readonly beside?: { readonly rightM: number; readonly topM: number } | undefined;
}

/** A box about a middle point. */
interface Room {
  readonly middle: Point;
  readonly half: Point;
}

interface Look {
  readonly azimuthRad: number;
  readonly elevationRad: number;
  readonly room: Room;
  /** Share of the picture that the room fills. */
  readonly fill: number;
}

const degrees = (angle: number): number => (angle * Math.PI) / 180;

/**
 * The least distance at which a box about the target fills at most the share `fill` of the picture.
 *
 * A point c (from the target) with the offset r along the camera's right lies at the depth D - c.d, d being
 * the way to the camera; it is inside the picture where |c.r| <= (D - c.d) tan(half angle) fill. So
 * D = max over the corners of |c.r| / (tan fill) + c.d, and the same upwards.
 */
export function fitDistance(look: Look, aspect: number): number {
  const way = towards(look);
  const { right, up } = sideways(look);
  const tanUp = Math.tan(FIELD_OF_VIEW_RAD / 2) * look.fill;
  const tanRight = tanUp * aspect;
  let distance = 0;
  for (const sx of [-1, 1]) {
    for (const sy of [-1, 1]) {
      for (const sz of [-1, 1]) {
        const c = [sx * look.room.half[0], sy * look.room.half[1], sz * look.room.half[2]] as const;
        const along = (axis: Point): number => c[0] * axis[0] + c[1] * axis[1] + c[2] * axis[2];
        const depth = along(way);
        distance = Math.max(distance, Math.abs(along(right)) / tanRight + depth, Math.abs(along(up)) / tanUp + depth);
      }
    }
  }
  return distance;
}

/** The folded piece and a share of what the flat sheet adds to it; 1 keeps all of it in the picture. */
function whole(hanging: Hanging, share: number): Room {
  const { centre, widthM, heightM, depthM, spreadM } = hanging;
  return {
    middle: [centre[0], centre[1], centre[2] - depthM / 2],
    half: [widthM / 2 + spreadM * share, heightM / 2 + spreadM * share, depthM / 2],
  };
}

/** The piece and what stands beside it, down to the floor. */
function withBeside(hanging: Hanging): Room {
  const room = whole(hanging, 1);
  if (hanging.beside === undefined) return room;
  const left = room.middle[0] - room.half[0];
  const top = Math.max(room.middle[1] + room.half[1], hanging.beside.topM);
  const right = Math.max(room.middle[0] + room.half[0], hanging.beside.rightM);
  return {
    middle: [(left + right) / 2, top / 2, room.middle[2]],
    half: [(right - left) / 2, top / 2, room.half[2]],
  };
}

/** The upper left corner, near enough to judge its folds. */
function corner(hanging: Hanging): Room {
  const { centre, widthM, heightM, depthM } = hanging;
  const reach = Math.min(Math.max(depthM * 2.2, Math.min(widthM, heightM) * 0.3), Math.min(widthM, heightM) / 2);
  return {
    middle: [centre[0] - widthM / 2 + reach * 0.7, centre[1] + heightM / 2 - reach * 0.55, centre[2] - depthM / 2],
    half: [reach, reach, depthM / 2],
  };
}

function lookAt(azimuth: number, elevation: number, room: Room, fill: number): Look {
  return { azimuthRad: degrees(azimuth), elevationRad: degrees(elevation), room, fill };
}

function viewLook(view: View, hanging: Hanging): Look {
  switch (view) {
    case "front":
      return lookAt(0, 0, withBeside(hanging), 0.88);
    case "side":
      return lookAt(-62, 7, whole(hanging, 0.7), 0.92);
    case "corner":
      return lookAt(-34, 27, corner(hanging), 0.9);
    case "back":
      return lookAt(180 + 16, 9, whole(hanging, 0.6), 0.88);
  }
}

function placeLook(place: Place, hanging: Hanging): Look {
  switch (place) {
    case "face":
    case "picture":
    case "sheet":
      return viewLook("front", hanging);
    case "top":
      return lookAt(-14, 48, whole(hanging, 0.4), 0.9);
    case "right":
      return lookAt(62, 7, whole(hanging, 0.7), 0.92);
    case "bottom":
      return lookAt(-14, -48, whole(hanging, 0.4), 0.9);
    case "left":
      return viewLook("side", hanging);
    case "corners":
      return viewLook("corner", hanging);
    case "back":
      return viewLook("back", hanging);
  }
}

function pose(look: Look, aspect: number): Pose {
  return {
    azimuthRad: look.azimuthRad,
    elevationRad: look.elevationRad,
    distanceM: fitDistance(look, aspect),
    target: look.room.middle,
  };
}

/** The camera of a named view in a picture of width / height `aspect`. */
export function viewPose(view: View, hanging: Hanging, aspect: number): Pose {
  return pose(viewLook(view, hanging), aspect);
}

/** The camera that shows the place of a note. */
export function placePose(place: Place, hanging: Hanging, aspect: number): Pose {
  return pose(placeLook(place, hanging), aspect);
}

const TURN_STEPS = 48;

/**
 * The camera round which the piece has been turned by an angle: from a little above, as far off for every angle.
 *
 * Turning the piece under a fixed camera shows what turning the camera the other way shows.
 */
export function turnPose(turnRad: number, hanging: Hanging, aspect: number): Pose {
  const looks = Array.from({ length: TURN_STEPS }, (_, i) => lookAt((i * 360) / TURN_STEPS, 8, whole(hanging, 0), 0.9));
  const distanceM = Math.max(...looks.map((look) => fitDistance(look, aspect)));
  return { azimuthRad: -turnRad, elevationRad: degrees(8), distanceM, target: whole(hanging, 0).middle };
}

/** How far the camera may go: never into the wood, never so far that the piece is lost. */
export function viewLimits(hanging: Hanging, aspect: number): Limits {
  const { centre, widthM, heightM, depthM } = hanging;
  const front = viewPose("front", hanging, aspect).distanceM;
  const reach = Math.max(widthM, heightM) * 0.25;
  const all = withBeside(hanging);
  const beside = hanging.beside !== undefined;
  return {
    nearestM: depthM * 1.5 + 0.08,
    furthestM: Math.max(front * 3, 7.5),
    low: [centre[0] - widthM / 2 - reach, beside ? 0 : centre[1] - heightM / 2 - reach, centre[2] - depthM],
    high: [
      Math.max(centre[0] + widthM / 2 + reach, beside ? all.middle[0] + all.half[0] : 0),
      Math.max(centre[1] + heightM / 2 + reach, beside ? all.middle[1] + all.half[1] : 0),
      centre[2] + depthM,
    ],
  };
}

/** Millimetres under one pixel, at a depth in metres, in a picture of so many pixels height. */
export function mmPerPixelAt(depthM: number, heightPx: number): number {
  return (2000 * depthM * Math.tan(FIELD_OF_VIEW_RAD / 2)) / heightPx;
}
