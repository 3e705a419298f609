/** The uniforms that all materials of the solid share. */

import { type IUniform, Vector2, Vector3 } from "three";
import type { Theme } from "../stage/types";
import { encodedColour, SOLID_COLOURS } from "./theme";

export interface SolidUniforms {
  readonly ground: IUniform<Vector3>;
  readonly ink: IUniform<Vector3>;
  readonly quietInk: IUniform<Vector3>;
  readonly thresholdDe: IUniform<number>;
  /** Device pixels of the drawing, and how many each CSS pixel has. */
  readonly viewport: IUniform<Vector2>;
  readonly pixelRatio: IUniform<number>;
}

export function solidUniforms(): SolidUniforms {
  return {
    ground: { value: new Vector3() },
    ink: { value: new Vector3() },
    quietInk: { value: new Vector3() },
    thresholdDe: { value: 0 },
    viewport: { value: new Vector2(1, 1) },
    pixelRatio: { value: 1 },
  };
}

export function setSolidColours(shared: SolidUniforms, theme: Theme): void {
  const found = SOLID_COLOURS[theme];
  for (const name of ["ground", "ink", "quietInk"] as const) {
    shared[name].value.set(...encodedColour(found[name]));
  }
}
