// The 3D model: which colours it carries, how far the making is, and what was measured on the file.
import { signal } from "@preact/signals";
import { bytesOf } from "../../contract/buffers";
import type { ModelColours, ModelReport, Note } from "../../contract/types";
import { openProfileInCore } from "./colour_profiles";
import { theCore } from "./core";
import { asCoreError } from "./core_failure";
import { download } from "./files";
import type { FieldMessage } from "./messages";
import { openInCore, whenSettled } from "./run";
import { work } from "./work";

export type Modelling =
  | { readonly state: "idle" }
  | { readonly state: "making"; readonly done: number; readonly label: string }
  | { readonly state: "stopped" }
  | { readonly state: "failed"; readonly message: FieldMessage }
  | { readonly state: "made"; readonly report: ModelReport; readonly notes: readonly Note[]; readonly file: Blob };

export const modelling = signal<Modelling>({ state: "idle" });
export const modelColours = signal<ModelColours>("printed");

/** About how many pixels the texture has, in millions. */
export const MODEL_MEGAPIXELS = [1, 4, 16] as const;
export const modelMegapixels = signal<number>(4);

let stopping: AbortController | undefined;

/** Make the model of the job in hand and hand it to the downloads. */
export async function makeModel(): Promise<void> {
  modelling.value = { state: "making", done: 0, label: "Beginning" };
  stopping = new AbortController();
  const { signal } = stopping;
  try {
    await whenSettled();
    const now = work.value;
    if (now === undefined) return;
    await openInCore(now.picture);
    const colours = modelColours.value;
    if (colours === "printed") await openProfileInCore(now.job.colour.profile);
    const { reply, buffers } = await theCore().call(
      "model",
      { job: now.job, colours, texture_px: modelMegapixels.value * 1_000_000 },
      { signal, onProgress: ({ done, label }) => (modelling.value = { state: "making", done, label }) },
    );
    const file = new Blob(
      reply.parts.map((part) => bytesOf(part, buffers)),
      { type: "model/gltf-binary" },
    );
    modelling.value = { state: "made", report: reply.report, notes: reply.notes, file };
    download(file, reply.report.file);
  } catch (failure) {
    modelling.value = signal.aborted ? { state: "stopped" } : { state: "failed", message: asCoreError(failure) };
  }
}

export function stopModel(): void {
  stopping?.abort();
}
