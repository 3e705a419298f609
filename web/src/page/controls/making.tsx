// Making a file: how far it is with a way to stop it, and what came of it.
import type { ComponentChildren } from "preact";
import type { Progress } from "../../contract/types";
import { download } from "../state/work/files";
import type { MadeFile, Making } from "../state/output/making";
import { NoteLines, Refusal } from "./labelled_field";

interface GoingProps {
  /** Of the bar. */
  readonly id: string;
  readonly progress: Progress;
  readonly stop: () => void;
}

/** How far it is, and a way to stop it. */
export function Going({ id, progress: { label, done }, stop }: GoingProps) {
  return (
    <div class="write-going">
      <label class="field-label" for={id}>
        {label}
      </label>
      <progress id={id} max={1} value={done}>
        {Math.round(done * 100)} %
      </progress>
      <button type="button" class="button" onClick={stop}>
        Stop
      </button>
    </div>
  );
}

interface OutcomeProps<Report> {
  readonly now: Making<Report>;
  /** What there is after it has been stopped. */
  readonly stopped: string;
  readonly children: (files: readonly MadeFile<Report>[]) => ComponentChildren;
}

/** Stopped, refused, or made: then `children` tell of the files. */
export function Outcome<Report>({ now, stopped, children }: OutcomeProps<Report>) {
  return (
    <div aria-live="polite">
      {now.state === "stopped" && <p class="consequence">Stopped; {stopped}.</p>}
      {now.state === "failed" && <Refusal why={now.message} />}
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
      <button type="button" class="button" onClick={() => download(file, report.file)}>
        Save it again
      </button>
    </div>
  );
}
