/** The uniforms that every material of the stage shares: one object each, so that one change reaches all. */

import type { IUniform, Texture } from "three";
import { Vector2, Vector3 } from "three";
import { roomLight } from "./light";
import { linearColour, ROOMS } from "./theme";
import type { Theme } from "./types";
import type { Hanging } from "./views";

export interface SharedUniforms {
  readonly keyDirection: IUniform<Vector3>;
  readonly keyColour: IUniform<Vector3>;
  readonly skyColour: IUniform<Vector3>;
  readonly wallColour: IUniform<Vector3>;
  readonly backdropColour: IUniform<Vector3>;
  readonly skirtingColour: IUniform<Vector3>;
  readonly floorColour: IUniform<Vector3>;
  readonly falloff: IUniform<number>;
  /** Pixels of the picture being drawn. */
  readonly viewport: IUniform<Vector2>;
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
    viewport: { value: new Vector2(1, 1) },
    wallShown: { value: 1 },
    shadow: { value: null },
    shadowCentre: { value: new Vector2() },
    shadowHalf: { value: new Vector2(1, 1) },
  };
}

/** Paint the room. */
export function paintRoom(shared: SharedUniforms, theme: Theme): void {
  const room = ROOMS[theme];
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
