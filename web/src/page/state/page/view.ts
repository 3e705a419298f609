// What of the stage is looked at: wall or sheet, how far folded, from where. No part of the job.
import { computed, signal } from "@preact/signals";
import type { Place } from "../../../contract/types";
import type { Stage, View } from "../../../stage/types";
import { shown } from "../work/work";
import type { Word } from "./names";

export type Scene = "wall" | "sheet";

/** The views that have a name. */
export const VIEWS: readonly Word<View>[] = [
  { value: "front", word: "Front" },
  { value: "side", word: "Side" },
  { value: "corner", word: "Corner" },
  { value: "back", word: "Back" },
];

export const scene = signal<Scene>("wall");
/** From flat (0) to folded (1). */
export const at = signal(1);
export const view = signal<View | "free">("side");
/** The place that a note has asked to see; counted, so that the same place can be asked for again. */
export const wanted = signal<{ place: Place; count: number } | undefined>(undefined);
/** Whether this browser can draw the wall; `still`: it was lost, and a picture of it is all that is left. */
export const wallState = signal<"waiting" | "drawn" | "lost" | "still" | "none">("waiting");

export const stages = computed(() => shown.value?.fold?.stages ?? []);

/** Where the canvas is drawn: a stage that has no rigid way through shows its start, then its end. */
export const drawnAt = computed(() => {
  const through = stages.value.find((stage) => stage.hidden === true && at.value > stage.start && at.value < stage.end);
  if (through === undefined) return at.value;
  return at.value < (through.start + through.end) / 2 ? through.start : through.end;
});

/** The step at the bench that the slider is in. */
export const stageNow = computed(() => {
  const all = stages.value;
  return all.find((stage) => at.value > stage.start && at.value <= stage.end) ?? all[0];
});

/** Show the place of a note: on the sheet what is about the sheet, on the wall everything else. */
export function showPlace(place: Place): void {
  if (place === "sheet" || place === "picture" || wallState.value === "none") scene.value = "sheet";
  else {
    scene.value = "wall";
    if (at.value < 1) at.value = 1;
  }
  wanted.value = { place, count: (wanted.value?.count ?? 0) + 1 };
}

// The stage on the page, for what asks it for pictures; none while it is loading, or where it cannot be.

export const theStage = signal<Stage | undefined>(undefined);
