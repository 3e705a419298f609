/** The named views and the places of notes: the camera's direction, and the box that must be in the picture. */

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
  /** It is not folded, or not yet all of it. */
  readonly unfolded?: boolean | undefined;
  /** What stands beside it on the floor, from the face's right on: its right end, its top, how far it stands out. */
  readonly beside?: { readonly rightM: number; readonly topM: number; readonly frontM: number } | undefined;
}

/** A box about a middle point. */
interface Box {
  readonly middle: Point;
  readonly half: Point;
}

interface Framing {
  readonly azimuthRad: number;
  readonly elevationRad: number;
  readonly room: Box;
  /** Share of the picture that the room fills. */
  readonly fill: number;
}

const degrees = (angle: number): number => (angle * Math.PI) / 180;

/**
 * The least distance at which a box about the target fills at most the share `fill` of the picture.
 *
 * A point c (from the target) with the offset r along the camera's right lies at the depth D - c.d, d being
 * the direction to the camera; it is inside the picture where |c.r| <= (D - c.d) tan(half angle) fill. So
 * D = max over the corners of |c.r| / (tan fill) + c.d, and the same upwards.
 */
export function fitDistance(frame: Framing, aspect: number): number {
  const direction = towards(frame);
  const { right, up } = sideways(frame);
  const tanUp = Math.tan(FIELD_OF_VIEW_RAD / 2) * frame.fill;
  const tanRight = tanUp * aspect;
  let distance = 0;
  for (const sx of [-1, 1]) {
    for (const sy of [-1, 1]) {
      for (const sz of [-1, 1]) {
        const c = [sx * frame.room.half[0], sy * frame.room.half[1], sz * frame.room.half[2]] as const;
        const along = (axis: Point): number => c[0] * axis[0] + c[1] * axis[1] + c[2] * axis[2];
        const depth = along(direction);
        distance = Math.max(distance, Math.abs(along(right)) / tanRight + depth, Math.abs(along(up)) / tanUp + depth);
      }
    }
  }
  return distance;
}

/** The folded piece and a share of what the flat sheet adds to it; all of it where the sheet is not folded. */
function pieceBox(hanging: Hanging, shareFolded: number): Box {
  const { centre, widthM, heightM, depthM, spreadM } = hanging;
  const share = hanging.unfolded === true ? 1 : shareFolded;
  return {
    middle: [centre[0], centre[1], centre[2] - depthM / 2],
    half: [widthM / 2 + spreadM * share, heightM / 2 + spreadM * share, depthM / 2],
  };
}

/**
 * What stands in front of the wall by 1 ends that much lower on it, seen from the front: the tangent of half the
 * opening angle, and a little for its being nearer.
 */
const LOWER_BY = 0.3;

/** The piece and what stands beside it, down to its feet on the floor. */
function withBeside(hanging: Hanging): Box {
  const room = pieceBox(hanging, 1);
  if (hanging.beside === undefined) return room;
  const left = room.middle[0] - room.half[0];
  const top = Math.max(room.middle[1] + room.half[1], hanging.beside.topM);
  const right = Math.max(room.middle[0] + room.half[0], hanging.beside.rightM);
  const feet = -LOWER_BY * hanging.beside.frontM;
  return {
    middle: [(left + right) / 2, (top + feet) / 2, room.middle[2]],
    half: [(right - left) / 2, (top - feet) / 2, room.half[2]],
  };
}

/** The upper left corner, near enough to judge its folds; of a sheet that is not folded all of it. */
function corner(hanging: Hanging): Box {
  if (hanging.unfolded === true) return pieceBox(hanging, 1);
  const { centre, widthM, heightM, depthM } = hanging;
  const reach = Math.min(Math.max(depthM * 2.2, Math.min(widthM, heightM) * 0.3), Math.min(widthM, heightM) / 2);
  return {
    middle: [centre[0] - widthM / 2 + reach * 0.7, centre[1] + heightM / 2 - reach * 0.55, centre[2] - depthM / 2],
    half: [reach, reach, depthM / 2],
  };
}

function framing(azimuth: number, elevation: number, room: Box, fill: number): Framing {
  return { azimuthRad: degrees(azimuth), elevationRad: degrees(elevation), room, fill };
}

function viewFraming(view: View, hanging: Hanging): Framing {
  switch (view) {
    case "front":
      return framing(0, 0, withBeside(hanging), 0.88);
    case "side":
      return framing(-62, 7, pieceBox(hanging, 0.7), 0.92);
    case "corner":
      return framing(-34, 27, corner(hanging), 0.9);
    case "back":
      return framing(180 + 16, 9, pieceBox(hanging, 0.6), 0.88);
  }
}

function placeFraming(place: Place, hanging: Hanging): Framing {
  switch (place) {
    case "face":
    case "picture":
    case "sheet":
      return viewFraming("front", hanging);
    case "top":
      return framing(-14, 48, pieceBox(hanging, 0.4), 0.9);
    case "right":
      return framing(62, 7, pieceBox(hanging, 0.7), 0.92);
    case "bottom":
      return framing(-14, -48, pieceBox(hanging, 0.4), 0.9);
    case "left":
      return viewFraming("side", hanging);
    case "corners":
      return viewFraming("corner", hanging);
    case "back":
      return viewFraming("back", hanging);
  }
}

function pose(frame: Framing, aspect: number): Pose {
  return {
    azimuthRad: frame.azimuthRad,
    elevationRad: frame.elevationRad,
    distanceM: fitDistance(frame, aspect),
    target: frame.room.middle,
  };
}

/** The camera of a named view in a picture of width / height `aspect`. */
export function viewPose(view: View, hanging: Hanging, aspect: number): Pose {
  return pose(viewFraming(view, hanging), aspect);
}

/** The camera that shows the place of a note. */
export function placePose(place: Place, hanging: Hanging, aspect: number): Pose {
  return pose(placeFraming(place, hanging), aspect);
}

const TURN_STEPS = 48;

/**
 * The camera round which the piece has been turned by an angle: from a little above, as far off for every angle.
 *
 * Turning the piece under a fixed camera shows what turning the camera the other way shows.
 */
export function turnPose(turnRad: number, hanging: Hanging, aspect: number): Pose {
  const frames = Array.from({ length: TURN_STEPS }, (_, i) =>
    framing((i * 360) / TURN_STEPS, 8, pieceBox(hanging, 0), 0.9),
  );
  const distanceM = Math.max(...frames.map((frame) => fitDistance(frame, aspect)));
  return { azimuthRad: -turnRad, elevationRad: degrees(8), distanceM, target: pieceBox(hanging, 0).middle };
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
