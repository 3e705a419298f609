/** Colours of the solid's surroundings, sRGB encoded, 0 to 1. The solid and its points never change with the theme. */

import type { Point } from "../stage/camera/orbit";
import type { Theme } from "../stage/types";

export interface SolidColours {
  readonly ground: string;
  readonly ink: string;
  readonly quietInk: string;
}

export const SOLID_COLOURS: Readonly<Record<Theme, SolidColours>> = {
  light: { ground: "#e5dccd", ink: "#262019", quietInk: "#5b5145" },
  dark: { ground: "#35302a", ink: "#efe7da", quietInk: "#bcb0a0" },
};

/** Rims of the marks: round pale colours and round dark ones. */
export const DARK_RIM = "#262019";
export const PALE_RIM = "#fdf8f0";

/** "#rrggbb" as encoded red, green and blue, 0 to 1. */
export function encodedColour(code: string): Point {
  const channel = (start: number): number => Number.parseInt(code.slice(start, start + 2), 16) / 255;
  return [channel(1), channel(3), channel(5)];
}
