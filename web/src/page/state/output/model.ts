// The output of the 3D model: its colours, its texture's size, and the file.
import { signal } from "@preact/signals";
import type { ModelColours, ModelReport } from "../../../contract/types";
import { openProfileInCore } from "../colour/profiles";
import { Maker } from "./making";

export const model = new Maker<ModelReport>();
export const modelColours = signal<ModelColours>("printed");

/** About how many pixels the texture has, in millions. */
export const MODEL_MEGAPIXELS = [1, 4, 16] as const;
export const modelMegapixels = signal<number>(4);

/** Make the model of the current job and hand it to the downloads. */
export function makeModel(): Promise<void> {
  return model.run(async ({ now, ask, deliver }) => {
    const colours = modelColours.value;
    if (colours === "printed") await openProfileInCore(now.job.colour.profile);
    const params = { job: now.job, colours, texture_px: modelMegapixels.value * 1_000_000 };
    deliver(await ask("model", params), "model/gltf-binary");
  });
}
