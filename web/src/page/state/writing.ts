// Writing the print file: how far it is, stopping it, and what was measured on the written file.
import { signal } from "@preact/signals";
import { bytesOf } from "../../contract/buffers";
import type { FileKind, FileReport, Note } from "../../contract/types";
import { openProfileInCore } from "./colour_profiles";
import { theCore } from "./core";
import { asCoreError } from "./core_failure";
import { download } from "./files";
import type { FieldMessage } from "./messages";
import { openInCore, whenSettled } from "./run";
import { work } from "./work";

export type Writing =
  | { readonly state: "idle" }
  | { readonly state: "writing"; readonly done: number; readonly label: string }
  | { readonly state: "stopped" }
  | { readonly state: "failed"; readonly message: FieldMessage }
  | { readonly state: "written"; readonly report: FileReport; readonly notes: readonly Note[]; readonly file: Blob };

export const writing = signal<Writing>({ state: "idle" });

const TYPES: Record<FileKind, string> = { tiff: "image/tiff", png: "image/png", jpeg: "image/jpeg" };

let stopping: AbortController | undefined;

/** Today as YYYY-MM-DD where the page is looked at; the core has no clock of its own. */
export function today(now: Date): string {
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Write the print file of the job in hand and hand it to the downloads. */
export async function writeFile(kind: FileKind): Promise<void> {
  writing.value = { state: "writing", done: 0, label: "Beginning" };
  stopping = new AbortController();
  const { signal } = stopping;
  try {
    await whenSettled();
    const now = work.value;
    if (now === undefined) return;
    await openInCore(now.picture);
    const { colour, print } = now.job;
    if (print.convert === "convert" || colour.bring_in > 0) await openProfileInCore(colour.profile);
    const { reply, buffers } = await theCore().call(
      "print",
      { job: now.job, kind, date: today(new Date()) },
      { signal, onProgress: ({ done, label }) => (writing.value = { state: "writing", done, label }) },
    );
    const file = new Blob(
      reply.parts.map((part) => bytesOf(part, buffers)),
      { type: TYPES[kind] },
    );
    writing.value = { state: "written", report: reply.report, notes: reply.notes, file };
    download(file, reply.report.file);
  } catch (failure) {
    writing.value = signal.aborted ? { state: "stopped" } : { state: "failed", message: asCoreError(failure) };
  }
}

export function stopWriting(): void {
  stopping?.abort();
}
