// How colours are looked at: as filed, as printed or as a clip map, with which white and black. No part of the job,
// but for the threshold while a hand moves it.
import { computed, effect, signal } from "@preact/signals";
import type { Screen, Viewing } from "../../../contract/types";
import type { ColourView } from "../../../stage/types";
import { keep, kept } from "../page/settings";
import { job } from "../work/work";

const VIEWING_KEY = "tuckfold-viewing";

export const colourView = signal<ColourView>("filed");
export const viewing = signal<Viewing>(asViewing(kept(VIEWING_KEY)));
effect(() => keep(VIEWING_KEY, viewing.value));

/** The threshold under the hand, until the job has it. */
export const liveThreshold = signal<number | undefined>(undefined);
/** What counts as clipped on the stage, CIEDE2000. */
export const threshold = computed(() => liveThreshold.value ?? job.value?.colour.clip_threshold_de ?? 0);

/** Held down: the print as it would be without bringing anything in. */
export const withoutBringing = signal(false);

/** The section about colour is on the screen, so that its figures are worth working out. */
export const colourSeen = signal(false);

function asViewing(text: string | null): Viewing {
  return text === "black" || text === "neither" ? text : "canvas";
}

// What the browser says about the screen. No browser says whether a screen is calibrated.

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
