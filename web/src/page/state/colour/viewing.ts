// How the page shows colours: as filed, as printed or as a clip map, with which white and black. No part of the job,
// but for the threshold while the pointer moves it. The screen as the browser describes it.
import { computed, effect, signal } from "@preact/signals";
import type { Screen, Viewing } from "../../../contract/types";
import type { ColourView } from "../../../stage/types";
import { keep, kept } from "../page/settings";
import { job } from "../work/work";

const VIEWING_KEY = "tuckfold-viewing";

export const colourView = signal<ColourView>("filed");
export const viewing = signal<Viewing>(asViewing(kept(VIEWING_KEY)));
effect(() => keep(VIEWING_KEY, viewing.value));

/** The threshold while the pointer moves it. */
export const liveThreshold = signal<number | undefined>(undefined);
/** The threshold that the stage draws with, CIEDE2000. */
export const threshold = computed(() => liveThreshold.value ?? job.value?.colour.clip_threshold_de ?? 0);

/** The stage shows the print without bringing in. */
export const showsUnadjusted = signal(false);

/** The colour section is on the screen, so its figures are needed. */
export const colourSeen = signal(false);

function asViewing(text: string | null): Viewing {
  return text === "black" || text === "neither" ? text : "canvas";
}

export type ScreenGamut = "narrower" | "srgb" | "p3" | "rec2020";

export interface ScreenFacts {
  readonly gamut: ScreenGamut;
  readonly highRange: boolean;
}

/** The space that wall and sheet draw in: sRGB, even where the screen shows more. */
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
