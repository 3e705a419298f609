/** The uniforms that every material of the stage shares: one object each, so that one change reaches all. */

import { type IUniform, type Texture, Vector2, Vector3, Vector4 } from "three";
import type { Surroundings } from "../../contract/types";
import { type Light, roomLight } from "../room/light";
import { NEUTRAL_KELVIN } from "../room/light_colour";
import { linearColour, DEFAULT_SURROUNDINGS, roomOf } from "../room/theme";
import type { Theme } from "../types";
import type { Hanging } from "../camera/views";

export interface SharedUniforms {
  readonly keyDirection: IUniform<Vector3>;
  readonly keyColour: IUniform<Vector3>;
  readonly skyColour: IUniform<Vector3>;
  readonly wallColour: IUniform<Vector3>;
  readonly backdropColour: IUniform<Vector3>;
  readonly skirtingColour: IUniform<Vector3>;
  readonly floorColour: IUniform<Vector3>;
  readonly falloff: IUniform<number>;
  /** 1 while the printed side is shown in even light without colour, shade or weave. */
  readonly flatLight: IUniform<number>;
  /** The weave of the canvas; see `weave.ts`. */
  readonly weave: IUniform<Texture | null>;
  /** Pixels of what is being drawn: a pane, or a tile of it. */
  readonly viewport: IUniform<Vector2>;
  /** Where the whole pane lies on what is being drawn into: left, bottom, width, height, pixels. */
  readonly paneBox: IUniform<Vector4>;
  /** Pixels of what is being drawn for each CSS pixel of the page. */
  readonly pixelRatio: IUniform<number>;
  /** 1 with the camera well in front of the wall, 0 behind it. */
  readonly wallShown: IUniform<number>;
  /** The shadow on the wall: key in red, sky in green; where it lies, in metres. */
  readonly shadow: IUniform<Texture | null>;
  readonly shadowCentre: IUniform<Vector2>;
  readonly shadowHalf: IUniform<Vector2>;
}

const vector = (v: readonly [number, number, number]): Vector3 => new Vector3(v[0], v[1], v[2]);

export function sharedUniforms(): SharedUniforms {
  const light = roomLight();
  return {
    keyDirection: { value: vector(light.key) },
    keyColour: { value: vector(light.keyColour) },
    skyColour: { value: vector(light.skyColour) },
    wallColour: { value: new Vector3() },
    backdropColour: { value: new Vector3() },
    skirtingColour: { value: new Vector3() },
    floorColour: { value: new Vector3() },
    falloff: { value: 0 },
    flatLight: { value: 0 },
    weave: { value: null },
    viewport: { value: new Vector2(1, 1) },
    paneBox: { value: new Vector4(0, 0, 1, 1) },
    pixelRatio: { value: 1 },
    wallShown: { value: 1 },
    shadow: { value: null },
    shadowCentre: { value: new Vector2() },
    shadowHalf: { value: new Vector2(1, 1) },
  };
}

/** Let the light in; gives it, for its shadow. Flat light has no colour on the wall either. */
export function lightRoom(shared: SharedUniforms, { light_from, light_kelvin, flat_light }: Surroundings): Light {
  const light = roomLight({ light_from, light_kelvin: flat_light ? NEUTRAL_KELVIN : light_kelvin });
  shared.keyDirection.value.set(...light.key);
  shared.keyColour.value.set(...light.keyColour);
  shared.skyColour.value.set(...light.skyColour);
  shared.flatLight.value = flat_light ? 1 : 0;
  return light;
}

/** Paint the room. */
export function paintRoom(
  shared: SharedUniforms,
  theme: Theme,
  wall: Surroundings["wall"] = DEFAULT_SURROUNDINGS.wall,
): void {
  const room = roomOf(theme, wall);
  shared.wallColour.value.set(...linearColour(room.wall));
  shared.backdropColour.value.set(...linearColour(room.backdrop));
  shared.skirtingColour.value.set(...linearColour(room.skirting));
  shared.floorColour.value.set(...linearColour(room.floor));
  shared.falloff.value = room.falloff;
}

/** Where the shadow's picture lies on the wall: it covers the flat sheet and what the light throws past it. */
export function placeShadow(
  shared: SharedUniforms,
  shadow: { readonly centre: Vector2; readonly half: Vector2 },
  hanging: Hanging,
): void {
  const past = hanging.spreadM + 3 * hanging.depthM + 0.12;
  shadow.centre.set(hanging.centre[0], hanging.centre[1]);
  shadow.half.set(hanging.widthM / 2 + past, hanging.heightM / 2 + past);
  shared.shadowCentre.value.copy(shadow.centre);
  shared.shadowHalf.value.copy(shadow.half);
}
