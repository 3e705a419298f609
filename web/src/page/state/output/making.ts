// Files that the core makes: progress, stop, and the files with their measurements.
import type { ReadonlySignal } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import type { Params } from "../../../contract/calls";
import type { Buffer as Sent, Method, Note, Progress } from "../../../contract/types";
import type { Answer as CoreAnswer } from "../../../worker/calls";
import type { CallOptions } from "../../../worker/core";
import { download } from "../work/files";
import { failureText, type FieldError } from "../page/fields";
import { NO_PICTURE } from "../work/pictures";
import { callAbout, settledWork } from "../work/run";
import { lacksPicture, type Work } from "../work/work";
import { Outcome } from "./outcome";
import { say } from "../../../speech/on_page";

/** A file with what was measured on it. */
export interface MadeFile<Report> {
  readonly report: Report;
  readonly notes: readonly Note[];
  readonly file: Blob;
}

/** What is said of every file of several; it stands once, below them. */
export function sharedNotes(files: readonly MadeFile<unknown>[]): readonly Note[] {
  const [first, ...others] = files;
  if (first === undefined || others.length === 0) return [];
  return first.notes.filter((note) => others.every((one) => isAmong(note, one.notes)));
}

/** Whether a note says what one of others says. */
export function isAmong(note: Note, others: readonly Note[]): boolean {
  return others.some(({ message }) => message === note.message);
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
  /** What the files are made of: the work in hand once no change waited. */
  readonly now: Work;
  /** Ask the core about the work's picture, with the progress and the stop of this task. */
  readonly ask: <M extends Method>(method: M, params: Params<M>, options?: CallOptions) => Promise<CoreAnswer<M>>;
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

export class Maker<Report extends { readonly file: string }> {
  readonly #outcome = new Outcome<MakingState<Report>>();
  #stopping: AbortController | undefined;

  readonly now: ReadonlySignal<MakingState<Report>> = this.#outcome.now;

  /** Run `make`, which makes files of the work in hand. Without any file the state returns to idle. */
  async run(make: (task: MakingContext<Report>) => Promise<void>): Promise<void> {
    const onProgress = ({ done, label }: Progress): void => {
      this.#outcome.set({ state: "making", done, label });
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
      this.#outcome.set({ state: "failed", message: PICTURE_LACKING });
      return;
    }
    onProgress({ done: 0, label: say("Beginning") });
    try {
      const now = await settledWork();
      stopped.throwIfAborted();
      const ask: MakingContext<Report>["ask"] = (method, params, options) =>
        callAbout(now?.picture ?? NO_PICTURE, method, params, { signal: stopped, onProgress, ...options });
      if (now !== undefined) await make({ now, ask, stopped, onProgress, deliver });
      this.#outcome.set(files.length === 0 ? { state: "idle" } : { state: "made", files });
    } catch (failure) {
      if (stopped.aborted) this.#outcome.set({ state: "stopped", files: files.length });
      else this.#outcome.set({ state: "failed", message: failureText(failure) });
    }
  }

  stop(): void {
    this.#stopping?.abort();
  }
}
