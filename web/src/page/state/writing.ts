// Writing the print file: how far it is, stopping it, and what was measured on the written file.
import { signal } from "@preact/signals";
import { bytesOf } from "../../contract/buffers";
import type { FileKind, FileReport, Note, Progress } from "../../contract/types";
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
  | { readonly state: "stopped"; readonly files: number }
  | { readonly state: "failed"; readonly message: FieldMessage }
  | { readonly state: "written"; readonly files: readonly WrittenFile[] };

/** A file with what was measured on it. */
export interface WrittenFile {
  readonly report: FileReport;
  readonly notes: readonly Note[];
  readonly file: Blob;
}

export const writing = signal<Writing>({ state: "idle" });

const TYPES: Record<FileKind, string> = { tiff: "image/tiff", png: "image/png", jpeg: "image/jpeg" };

let stopping: AbortController | undefined;

/** Today as YYYY-MM-DD where the page is looked at; the core has no clock of its own. */
export function today(now: Date): string {
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Write the print files of the job in hand, of a group one for each of the panels asked for, and hand them to
 * the downloads one after another. */
export async function writeFiles(kind: FileKind, panels: readonly number[]): Promise<void> {
  writing.value = { state: "writing", done: 0, label: "Beginning" };
  stopping = new AbortController();
  const { signal } = stopping;
  const files: WrittenFile[] = [];
  try {
    await whenSettled();
    const now = work.value;
    if (now === undefined) return;
    await openInCore(now.picture);
    const { colour, print } = now.job;
    if (print.convert === "convert" || colour.bring_in > 0) await openProfileInCore(colour.profile);
    for (const [place, panel] of panels.entries()) {
      const onProgress = ({ done, label }: Progress): void => {
        const of = now.job.group.panels > 1 ? `${label}, panel ${panel} of ${now.job.group.panels}` : label;
        writing.value = { state: "writing", done: (place + done) / panels.length, label: of };
      };
      const params = { job: now.job, kind, date: today(new Date()), panel };
      const { reply, buffers } = await theCore().call("print", params, { signal, onProgress });
      const file = new Blob(
        reply.parts.map((part) => bytesOf(part, buffers)),
        { type: TYPES[kind] },
      );
      files.push({ report: reply.report, notes: reply.notes, file });
      download(file, reply.report.file);
    }
    writing.value = { state: "written", files };
  } catch (failure) {
    writing.value = signal.aborted ? { state: "stopped", files: files.length } : { state: "failed", message: asCoreError(failure) };
  }
}

export function stopWriting(): void {
  stopping?.abort();
}
