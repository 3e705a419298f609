/**
 * The light of the room as numbers: one soft key light from a named direction, and the sky of the room.
 *
 * Key and sky are balanced so that in neutral light the unshaded face, whose normal is +z, receives exactly one
 * in every channel: what the texture says is what the screen shows, however warm the key and cool the shade.
 */

import type { LightFrom, Surroundings } from "../../contract/types";
import { lightTint } from "./light_colour";
import type { Point } from "../camera/orbit";
import { DEFAULT_SURROUNDINGS } from "./theme";

export interface Light {
  /** Unit vector towards the key light. */
  readonly key: Point;
  /** Irradiance of the key on a surface that faces it, linear RGB. */
  readonly keyColour: Point;
  /** Irradiance of the sky on the face, linear RGB. */
  readonly skyColour: Point;
}

/** Towards the window: x right, y up, z in front of the wall. */
const TOWARDS_KEY: Readonly<Record<LightFrom, Point>> = {
  "upper-left": [-0.46, 0.62, 0.8],
  left: [-0.74, 0.2, 0.8],
  above: [0, 0.82, 0.74],
  right: [0.74, 0.2, 0.8],
  "upper-right": [0.46, 0.62, 0.8],
};
/** The key's share of the light on the face: red, green, blue; morning sun is a little warm. */
const KEY_SHARE: Point = [0.57, 0.555, 0.53];

function unit(v: Point): Point {
  const length = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / length, v[1] / length, v[2] / length];
}

type Lit = Pick<Surroundings, "light_from" | "light_kelvin">;

/** The light of the stage. */
export function roomLight({ light_from, light_kelvin }: Lit = DEFAULT_SURROUNDINGS): Light {
  const key = unit(TOWARDS_KEY[light_from]);
  const tint = lightTint(light_kelvin);
  const each = (colour: (channel: 0 | 1 | 2) => number): Point => [colour(0), colour(1), colour(2)];
  return {
    key,
    keyColour: each((k) => (tint[k] * KEY_SHARE[k]) / key[2]),
    skyColour: each((k) => tint[k] * (1 - KEY_SHARE[k])),
  };
}

/** A ray of light that is traced on to the wall; x and y slope per metre off the wall, and what it carries. */
export interface Ray {
  readonly slopeX: number;
  readonly slopeY: number;
  /** In 255ths of the key light, or of the sky: whole numbers, so that eight bits add up exactly. */
  readonly key: number;
  readonly sky: number;
}

/** Radius of the window, seen from the piece: its shadow is sharp at the wall and soft far off it. */
const KEY_RADIUS = 0.2;
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));
/** The sky is cut off here; light that grazes the wall throws shadows longer than the wall shown. */
const STEEPEST_SKY_SINE = 0.93;

/** `count` points spread evenly over the unit disc (Vogel's sunflower). */
export function sunflower(count: number): readonly (readonly [number, number])[] {
  return Array.from({ length: count }, (_, i) => {
    const radius = Math.sqrt((i + 0.5) / count);
    return [radius * Math.cos(i * GOLDEN_ANGLE), radius * Math.sin(i * GOLDEN_ANGLE)] as const;
  });
}

/**
 * Rays whose weights add up to 255 for key and for sky.
 *
 * The sky's rays are points of a disc lifted on to the hemisphere, which gives the cosine law that a wall
 * sees it by. `keyCount` and `skyCount` must divide 255.
 */
export function shadowRays(light: Light, keyCount: number, skyCount: number): readonly Ray[] {
  for (const count of [keyCount, skyCount]) {
    if (255 % count !== 0) throw new RangeError(`rays: expected a divisor of 255, got ${count}`);
  }
  const [kx, ky, kz] = light.key;
  const keyRays = sunflower(keyCount).map(([x, y]) => ({
    slopeX: kx / kz + (x * KEY_RADIUS) / kz,
    slopeY: ky / kz + (y * KEY_RADIUS) / kz,
    key: 255 / keyCount,
    sky: 0,
  }));
  const skyRays = sunflower(skyCount).map(([x, y]) => {
    const sx = x * STEEPEST_SKY_SINE;
    const sy = y * STEEPEST_SKY_SINE;
    const sz = Math.sqrt(1 - sx * sx - sy * sy);
    return { slopeX: sx / sz, slopeY: sy / sz, key: 0, sky: 255 / skyCount };
  });
  return [...keyRays, ...skyRays];
}
