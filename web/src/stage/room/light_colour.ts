/** The colour of light of a colour temperature, as this page shows it. */

import type { Point } from "../camera/orbit";

/** At this temperature the light is neutral: the proof is computed for D50 (ISO 3664). */
export const NEUTRAL_KELVIN = 5000;

/**
 * Chromaticity of a black body: the cubic approximation of Kang et al. (2002), as CIE 1931 x, y; 1667 to 25000 K.
 *
 * The daylight locus begins at 4000 K only and lies a little above this one; one smooth line over the whole range
 * keeps the slider free of a jump.
 */
export function blackBody(kelvin: number): readonly [number, number] {
  const t = 1000 / kelvin;
  const x =
    kelvin <= 4000
      ? ((-0.2661239 * t - 0.2343589) * t + 0.8776956) * t + 0.17991
      : ((-3.0258469 * t + 2.1070379) * t + 0.2226347) * t + 0.24039;
  const y =
    kelvin <= 2222
      ? ((-1.1063814 * x - 1.3481102) * x + 2.18555832) * x - 0.20219683
      : kelvin <= 4000
        ? ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867
        : ((3.081758 * x - 5.8733867) * x + 3.75112997) * x - 0.37001483;
  return [x, y];
}

/** XYZ to linear sRGB: IEC 61966-2-1. */
const TO_RGB: readonly Point[] = [
  [3.2406, -1.5372, -0.4986],
  [-0.9689, 1.8758, 0.0415],
  [0.0557, -0.204, 1.057],
];

function rgbLinear(kelvin: number): Point {
  const [x, y] = blackBody(kelvin);
  const xyz: Point = [x / y, 1, (1 - x - y) / y];
  const channel = (row: number): number => xyz.reduce((sum, value, k) => sum + value * (TO_RGB[row]?.[k] ?? 0), 0);
  return [channel(0), channel(1), channel(2)];
}

/** How much of the light's colour is seen: an eye in the room adapts to the rest of it. Chosen by eye, no source. */
const SEEN = 0.35;

/**
 * What each channel of the light is multiplied by, relative to `NEUTRAL_KELVIN`; the largest is 1, so that no
 * printed colour is driven past what the screen can show.
 */
export function lightTint(kelvin: number): Point {
  const light = rgbLinear(kelvin);
  const neutral = rgbLinear(NEUTRAL_KELVIN);
  const share = (k: 0 | 1 | 2): number => (light[k] / neutral[k]) ** SEEN;
  const [r, g, b] = [share(0), share(1), share(2)];
  const most = Math.max(r, g, b);
  return [r / most, g / most, b / most];
}
