// The output of stills: view, size, scale, and the files.
import { signal } from "@preact/signals";
import type { Stage } from "../../../stage/types";
import { download } from "../work/files";
import { fileName } from "../work/pictures";
import { unit } from "../page/settings";
import { Outcome } from "./outcome";
import { EACH, STILL_VIEWS, stillOptions, type StillView } from "./still_choice";
import { mountedStage } from "../page/view";
import { job, lacksPicture } from "../work/work";
import { say, lowered } from "../../../speech/on_page";

export type Saving =
  | { readonly state: "idle" }
  | { readonly state: "saving"; readonly label: string }
  | { readonly state: "failed"; readonly text: string }
  | { readonly state: "saved"; readonly files: readonly string[] };

export const stillView = signal<StillView>("front");
export const stillWidth = signal(2400);
export const stillHeight = signal(1600);
export const stillScale = signal(true);
const outcome = new Outcome<Saving>();

/** How the latest saving has come out. */
export const saving = outcome.now;

/** Draw the stills that are asked for and hand them to the downloads. */
export async function saveStills(): Promise<void> {
  const stage = mountedStage.value;
  if (stage === undefined) return;
  const views = stillView.value === "all" ? EACH : [stillView.value];
  const files: string[] = [];
  if (lacksPicture.value) {
    fail(say("the picture of this job is not open"));
    return;
  }
  try {
    for (const view of views) files.push(await saveOne(stage, view));
    outcome.set({ state: "saved", files });
  } catch (failure) {
    fail(failure instanceof Error ? failure.message : String(failure));
  }
}

function fail(text: string): void {
  outcome.set({ state: "failed", text });
}

async function saveOne(stage: Stage, view: StillView): Promise<string> {
  const word = STILL_VIEWS.find(({ value }) => value === view)?.word ?? view;
  outcome.set({ state: "saving", label: say("Drawing: {word}", { word: lowered(word) }) });
  const scale = stillScale.value ? unit.value : undefined;
  const blob = await stage.still(stillWidth.value, stillHeight.value, stillOptions(view, scale));
  const name = `${fileName(job.value?.name || "canvas")}-${view === "now" ? "wall" : view}.png`;
  download(blob, name);
  return name;
}
