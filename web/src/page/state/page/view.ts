// The view of the stage: wall, sheet or photograph, position of the fold, viewpoint. No part of the job.
import { computed, signal } from "@preact/signals";
import type { Place } from "../../../contract/types";
import type { Stage, View } from "../../../stage/types";
import { shown } from "../work/work";
import type { Option } from "./names";
import { say } from "../../../speech/on_page";

export type Scene = "wall" | "sheet" | "photo";

/** The views that have a name. */
export const VIEWS: readonly Option<View>[] = [
  { value: "front", word: say("Front") },
  { value: "side", word: say("Side") },
  { value: "corner", word: say("Corner") },
  { value: "back", word: say("Back") },
];

export const scene = signal<Scene>("wall");
/** The height of the captions below the panes of a comparison, CSS pixels; 0 without one. */
export const captionsHighPx = signal(0);
/** How far the words of the gamut map reach up from the wall's foot, CSS pixels; 0 where they lie elsewhere. */
export const scaleHighPx = signal(0);
/** From flat (0) to folded (1). */
export const foldPosition = signal(1);
export const view = signal<View | "free">("side");
/** The place that a note has asked to see; counted, so that the same place can be asked for again. */
export const requestedPlace = signal<{ place: Place; count: number } | undefined>(undefined);
/** Whether this browser draws the wall; `still`: the context was lost and a snapshot stands in its place. */
export const wallState = signal<"waiting" | "drawn" | "lost" | "still" | "none">("waiting");

export const foldSteps = computed(() => shown.value?.fold?.steps ?? []);

/** The position that is drawn: a step without a rigid motion shows its start, then its end. */
export const drawnAt = computed(() => {
  const through = foldSteps.value.find(
    (stage) => stage.hidden === true && foldPosition.value > stage.start && foldPosition.value < stage.end,
  );
  if (through === undefined) return foldPosition.value;
  return foldPosition.value < (through.start + through.end) / 2 ? through.start : through.end;
});

/** The folding step at the slider's position. */
export const currentFoldStep = computed(() => {
  const all = foldSteps.value;
  return all.find((stage) => foldPosition.value > stage.start && foldPosition.value <= stage.end) ?? all[0];
});

/** Show the place of a note: on the sheet what is about the sheet, on the wall everything else. */
export function showPlace(place: Place): void {
  if (place === "sheet" || place === "picture" || wallState.value === "none") scene.value = "sheet";
  else {
    scene.value = "wall";
    if (foldPosition.value < 1) foldPosition.value = 1;
  }
  requestedPlace.value = { place, count: (requestedPlace.value?.count ?? 0) + 1 };
}

export const mountedStage = signal<Stage | undefined>(undefined);
