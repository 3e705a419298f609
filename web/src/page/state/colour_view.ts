// How colours are looked at: as filed, as printed or as a clip map, with which white and black. No part of the job,
// but for the threshold while a hand moves it.
import { computed, effect, signal } from "@preact/signals";
import type { Viewing } from "../../contract/types";
import type { ColourView } from "../../stage/types";
import { kept, keep } from "./settings";
import { job } from "./work";

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
