// What the browser says about the screen. No browser says whether a screen is calibrated.
import { signal } from "@preact/signals";
import type { Screen } from "../../contract/types";

export type Gamut = "narrower" | "srgb" | "p3" | "rec2020";

export interface ScreenFacts {
  readonly gamut: Gamut;
  readonly highRange: boolean;
}

/** The space that the wall and the sheet draw to: theirs is sRGB, whatever more the screen could show. */
export const DRAWN_TO: Screen = "srgb";

const GAMUTS = ["rec2020", "p3", "srgb"] as const;
const HIGH = "(dynamic-range: high)";

export const screenFacts = signal<ScreenFacts>(factsNow());

for (const query of [...GAMUTS.map((gamut) => `(color-gamut: ${gamut})`), HIGH]) {
  matchMedia(query).addEventListener("change", () => (screenFacts.value = factsNow()));
}

function factsNow(): ScreenFacts {
  const gamut = GAMUTS.find((one) => matchMedia(`(color-gamut: ${one})`).matches) ?? "narrower";
  return { gamut, highRange: matchMedia(HIGH).matches };
}
