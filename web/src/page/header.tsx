// The page's header: its name, the current job, undo and redo, and the job as a file or a bundle.
import { pressable } from "./controls/pressable";
import { FieldErrorText } from "./controls/labelled_field";
import { OpenFile } from "./controls/open_file";
import { JobsDialog } from "./jobs/jobs_dialog";
import { KeepingNotice } from "./jobs/keeping_notice";
import { readOnly } from "./state/keeping/mode";
import { openList } from "./state/keeping/list";
import { saveJob, openFile } from "./state/work/files";
import { fieldId } from "./state/page/fields";
import { saveBundle, savingBundle } from "./state/output/bundle";
import { step } from "./state/work/run";
import { isDemo, job, toRedo, toUndo } from "./state/work/work";
import { say, sayParts } from "../speech/on_page";

export function PageHeader() {
  const now = job.value;
  return (
    <header class="page-header">
      <h1 class="page-header-name">
        <Mark />
        {say("Tuckfold")}
      </h1>
      <p class="page-header-line">{say("From a photograph to a folded canvas, and to the file it is printed from.")}</p>
      <p class="guide-link">
        <a href="./guide.html" target="_blank">
          {say("Guide")}
        </a>
      </p>
      {now !== undefined && (
        <div class="current-job">
          {/* Read aloud when another job, or another picture's, is opened. */}
          <p class="current-job-name" aria-live="polite">
            {now.name || say("No name yet")}
          </p>
          {now.client && <p class="current-job-client">{say("for {client}", { client: now.client })}</p>}
          {isDemo.value && (
            <p class="demo-note">
              {sayParts("{stressed} Studio, client and picture are invented. Open your own picture to begin.", {
                stressed: <strong>{say("This is a demo.")}</strong>,
              })}
            </p>
          )}
        </div>
      )}
      {now !== undefined && (
        <nav class="page-header-actions" aria-label={say("The job")}>
          <button
            type="button"
            class="text-button"
            title={toUndo.value && say("Undo: {toUndo}", { toUndo: toUndo.value })}
            {...pressable(toUndo.value !== undefined && !readOnly.value, () => void step("undo"))}
          >
            {say("Undo")}
          </button>
          <button
            type="button"
            class="text-button"
            title={toRedo.value && say("Redo: {toRedo}", { toRedo: toRedo.value })}
            {...pressable(toRedo.value !== undefined && !readOnly.value, () => void step("redo"))}
          >
            {say("Redo")}
          </button>
          <button type="button" class="text-button" id="open-jobs" onClick={() => void openList()}>
            {say("Jobs")}
          </button>
          <OpenJob />
          <button type="button" class="text-button" onClick={saveJob}>
            {say("Save the job")}
          </button>
          <button
            type="button"
            class="text-button long"
            title={say("The job with its picture and its profile in one file (.zip)")}
            {...pressable(!savingBundle.value, () => void saveBundle())}
          >
            {say("Save the bundle")}
          </button>
        </nav>
      )}
      <FieldErrorText field="job" />
      <KeepingNotice />
      <JobsDialog />
    </header>
  );
}

function OpenJob() {
  return (
    <OpenFile
      id={fieldId("job")}
      look="text-button long"
      label={say("Open a job or bundle")}
      entry="job"
      accept="application/json,.json,application/zip,.zip"
      open={(file) => void openFile(file)}
    />
  );
}

/** A folded corner of canvas: the page's own mark. */
function Mark() {
  return (
    <svg class="mark" viewBox="0 0 32 32" aria-hidden="true">
      <path d="M4 9 L22 4 L22 23 L4 28 Z" />
      <path d="M22 4 L28 8 L28 27 L22 23" />
      <path d="M22 23 L28 17.5" />
    </svg>
  );
}
