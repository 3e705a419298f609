// Making a file: a progress bar with a stop button, and the outcome.
import type { ComponentChildren } from "preact";
import type { Progress } from "../../contract/types";
import { download } from "../state/work/files";
import type { MadeFile, MakingState } from "../state/output/making";
import { NoteLines, ErrorText } from "./labelled_field";
import { saidAgain, say } from "../../speech/on_page";

interface ProgressBarProps {
  /** Of the bar. */
  readonly id: string;
  readonly progress: Progress;
  readonly stop: () => void;
}

/** A progress bar with a button that stops the work. */
export function ProgressBar({ id, progress: { label, done }, stop }: ProgressBarProps) {
  return (
    <div class="write-going">
      <label class="field-label" for={id}>
        {saidAgain(label)}
      </label>
      <progress id={id} max={1} value={done}>
        {Math.round(done * 100)} %
      </progress>
      <button type="button" class="button" onClick={stop}>
        {say("Stop")}
      </button>
    </div>
  );
}

interface OutcomeProps<Report> {
  readonly now: MakingState<Report>;
  /** The result after a stop, in words. */
  readonly stopped: string;
  readonly children: (files: readonly MadeFile<Report>[]) => ComponentChildren;
}

/** Shows that the work was stopped or refused, or renders `children` with the files that were made. */
export function Outcome<Report>({ now, stopped, children }: OutcomeProps<Report>) {
  return (
    <div aria-live="polite">
      {now.state === "stopped" && <p class="consequence">{say("Stopped; {stopped}.", { stopped })}</p>}
      {now.state === "failed" && <ErrorText why={now.message} />}
      {now.state === "made" && children(now.files)}
    </div>
  );
}

interface MadeReportProps {
  readonly made: MadeFile<{ readonly file: string }>;
  readonly id?: string;
  /** What was measured on it. */
  readonly children: ComponentChildren;
}

/** A file's report: what was measured, the core's notes, and the file once more. */
export function MadeReport({ made: { report, notes, file }, id, children }: MadeReportProps) {
  return (
    <div class="report" id={id}>
      {children}
      <NoteLines notes={notes} />
      <button
        type="button"
        class="button"
        aria-label={say("Save it again: {file}", { file: report.file })}
        onClick={() => download(file, report.file)}
      >
        {say("Save it again")}
      </button>
    </div>
  );
}
