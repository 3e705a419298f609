// The page for the client: what is offered, a few words, how far the making is, and what was checked on the file.
import { signal } from "@preact/signals";
import viewerAddress from "../../../../pycore/client/data/viewer.js?url";
import { bytesOf } from "../../contract/buffers";
import type { ClientParams, ClientReport, Job, Note, Variant } from "../../contract/types";
import { openProfileInCore } from "./colour_profiles";
import { theCore } from "./core";
import { asCoreError } from "./core_failure";
import { download } from "./files";
import type { FieldMessage } from "./messages";
import { openInCore, whenSettled } from "./run";
import { surroundings } from "./surroundings";
import { work } from "./work";
import { today } from "./writing";

export type Making =
  | { readonly state: "idle" }
  | { readonly state: "making"; readonly done: number; readonly label: string }
  | { readonly state: "stopped" }
  | { readonly state: "failed"; readonly message: FieldMessage }
  | { readonly state: "made"; readonly report: ClientReport; readonly notes: readonly Note[]; readonly file: Blob };

export const making = signal<Making>({ state: "idle" });

/** A few words to the client, and whether the comparison's variants are offered in the place of the job alone. */
export const clientWords = signal("");
export const offersComparison = signal(false);

let stopping: AbortController | undefined;

/** Make the page and hand it to the downloads; `variants` are those of a comparison, where there are any. */
export async function makeClientPage(variants: readonly Variant[]): Promise<void> {
  making.value = { state: "making", done: 0, label: "Beginning" };
  stopping = new AbortController();
  const { signal } = stopping;
  try {
    await whenSettled();
    const now = work.value;
    if (now === undefined) return;
    const offered = offeredOf(variants, now.job);
    await openInCore(now.picture);
    for (const name of new Set(offered.map(({ job }) => job.colour.profile))) await openProfileInCore(name);
    const viewer = await fetch(viewerAddress, { signal });
    if (!viewer.ok) throw new Error(`the viewer's program did not come: ${viewer.status}`);
    const { reply, buffers } = await theCore().call(
      "client",
      {
        variants: offered,
        surroundings: surroundings.value,
        message: clientWords.value,
        date: today(new Date()),
      },
      {
        signal,
        buffer: await viewer.arrayBuffer(),
        onProgress: ({ done, label }) => (making.value = { state: "making", done, label }),
      },
    );
    const file = new Blob(
      reply.parts.map((part) => bytesOf(part, buffers)),
      { type: "text/html" },
    );
    making.value = { state: "made", report: reply.report, notes: reply.notes, file };
    download(file, reply.report.file);
  } catch (failure) {
    making.value = signal.aborted ? { state: "stopped" } : { state: "failed", message: asCoreError(failure) };
  }
}

/** One to four variants; the job alone where there are none to choose from. */
function offeredOf(variants: readonly Variant[], job: Job): ClientParams["variants"] {
  const [first = { label: "", job }, second, third, fourth] = variants;
  if (second === undefined) return [first];
  if (third === undefined) return [first, second];
  return fourth === undefined ? [first, second, third] : [first, second, third, fourth];
}

export function stopMaking(): void {
  stopping?.abort();
}
