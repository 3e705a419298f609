/** Colours of the room, sRGB encoded. The canvas itself never changes with the theme. */

import type { Surroundings, Wall } from "../../contract/types";
import { NEUTRAL_KELVIN } from "./light_colour";
import type { Point } from "../camera/orbit";
import type { Theme } from "../types";

export interface Room {
  readonly wall: string;
  /** Where the wall is lost in the distance, and behind the piece when it is seen from the back. */
  readonly backdrop: string;
  readonly skirting: string;
  readonly floor: string;
  /** How much darker the wall is far from the light. */
  readonly falloff: number;
}

export const ROOMS: Readonly<Record<Theme, Room>> = {
  light: { wall: "#e9e2d7", backdrop: "#d9d0c2", skirting: "#f2ede4", floor: "#bda98e", falloff: 0.16 },
  dark: { wall: "#55504a", backdrop: "#34312e", skirting: "#5c564f", floor: "#3a3029", falloff: 0.66 },
};

/** The walls to choose from: the wall itself, and where it is lost in the distance. Each theme has its own light. */
export const WALLS: Readonly<Record<Theme, Readonly<Record<Wall, Pick<Room, "wall" | "backdrop">>>>> = {
  light: {
    plaster: { wall: ROOMS.light.wall, backdrop: ROOMS.light.backdrop },
    chalk: { wall: "#f3f2ee", backdrop: "#e4e3de" },
    sand: { wall: "#dccbaf", backdrop: "#cbb999" },
    sage: { wall: "#bcc5b0", backdrop: "#a9b39c" },
    slate: { wall: "#6d767e", backdrop: "#5c656d" },
  },
  dark: {
    plaster: { wall: ROOMS.dark.wall, backdrop: ROOMS.dark.backdrop },
    chalk: { wall: "#626261", backdrop: "#3d3d3c" },
    sand: { wall: "#574c3d", backdrop: "#352e25" },
    sage: { wall: "#464c41", backdrop: "#2b2f28" },
    slate: { wall: "#343a40", backdrop: "#212528" },
  },
};

/** The room of a theme with a wall's colour. */
export function roomOf(theme: Theme, wall: Wall): Room {
  return { ...ROOMS[theme], ...WALLS[theme][wall] };
}

/** The room as long as nobody has asked for another. */
export const DEFAULT_SURROUNDINGS: Surroundings = {
  wall: "plaster",
  light_from: "upper-left",
  light_kelvin: NEUTRAL_KELVIN,
  beside: "nothing",
  flat_light: false,
};

/** The unprinted canvas, and the wood of the bars. */
export const CANVAS = "#f1ece2";
export const WOOD = "#dcbd91";
/** What stands beside the piece: quiet, darker than a pale wall and paler than a dark one. */
export const BESIDE = "#a2988a";

/** An sRGB code value as a share of light: IEC 61966-2-1, section 5.2. */
export function toLinear(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** "#rrggbb" as linear RGB. */
export function linearColour(code: string): Point {
  const channel = (start: number): number => toLinear(Number.parseInt(code.slice(start, start + 2), 16) / 255);
  return [channel(1), channel(3), channel(5)];
}
