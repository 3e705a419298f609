// Files that the core makes: progress, stop, and the files with their measurements.
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import type { Buffer as Sent, Note, Progress } from "../../../contract/types";
import { download } from "../work/files";
import { failureText, type FieldError } from "../page/fields";
import { lacksPicture, work } from "../work/work";
import { say } from "../../../speech/on_page";

/** A file with what was measured on it. */
export interface MadeFile<Report> {
  readonly report: Report;
  readonly notes: readonly Note[];
  readonly file: Blob;
}

export type MakingState<Report> =
  | { readonly state: "idle" }
  | { readonly state: "making"; readonly done: number; readonly label: string }
  /** So many files had been handed to the downloads before. */
  | { readonly state: "stopped"; readonly files: number }
  | { readonly state: "failed"; readonly message: FieldError }
  | { readonly state: "made"; readonly files: readonly MadeFile<Report>[] };

/** The core's answer with a file. */
interface Answer<Report> {
  readonly reply: { readonly report: Report; readonly parts: readonly Sent[]; readonly notes?: readonly Note[] };
  readonly buffers: readonly ArrayBuffer[];
}

/** The tools that a maker of files works with. */
export interface MakingContext<Report> {
  readonly stopped: AbortSignal;
  /** Report the progress. */
  readonly onProgress: (progress: Progress) => void;
  /** Hand over a finished file; it goes to the downloads at once. */
  readonly deliver: (answer: Answer<Report>, type: string) => void;
}

/** The bytes of a file in the order in which the core has sent them. */
export function fileOf(parts: readonly Sent[], buffers: readonly ArrayBuffer[], type: string): Blob {
  return new Blob(
    parts.map((part) => bytesOf(part, buffers)),
    { type },
  );
}

/** Nothing is made of a canvas whose picture is not at hand. */
export const PICTURE_LACKING: FieldError = {
  field: "",
  message: say("The picture of this job is not open, so nothing was made."),
  remedy: say("open it, or use another picture for the job"),
};

/** The job in hand and its picture, to tell whether they have changed. */
export function handMark(): string {
  const now = work.value;
  return JSON.stringify([now?.picture, now?.job]);
}

export class Maker<Report extends { readonly file: string }> {
  readonly #now = signal<MakingState<Report>>({ state: "idle" });
  /** Of what the latest failure is: it holds no longer once that has changed. */
  #failedOf = "";
  #stopping: AbortController | undefined;

  readonly now: ReadonlySignal<MakingState<Report>> = computed(() => {
    const now = this.#now.value;
    return now.state === "failed" && handMark() !== this.#failedOf ? { state: "idle" } : now;
  });

  /** Run `make`, which makes files. Without any file the state returns to idle. */
  async run(make: (task: MakingContext<Report>) => Promise<void>): Promise<void> {
    const onProgress = ({ done, label }: Progress): void => {
      this.#now.value = { state: "making", done, label };
    };
    const files: MadeFile<Report>[] = [];
    const deliver = ({ reply, buffers }: Answer<Report>, type: string): void => {
      const file = fileOf(reply.parts, buffers, type);
      files.push({ report: reply.report, notes: reply.notes ?? [], file });
      download(file, reply.report.file);
    };
    this.#stopping = new AbortController();
    const { signal: stopped } = this.#stopping;
    if (lacksPicture.value) {
      this.#fail(PICTURE_LACKING);
      return;
    }
    onProgress({ done: 0, label: say("Beginning") });
    try {
      await make({ stopped, onProgress, deliver });
      this.#now.value = files.length === 0 ? { state: "idle" } : { state: "made", files };
    } catch (failure) {
      if (stopped.aborted) this.#now.value = { state: "stopped", files: files.length };
      else this.#fail(failureText(failure));
    }
  }

  #fail(message: FieldError): void {
    this.#failedOf = handMark();
    this.#now.value = { state: "failed", message };
  }

  stop(): void {
    this.#stopping?.abort();
  }
}
