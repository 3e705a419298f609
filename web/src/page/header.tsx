// The head of the page: what it is, what is in hand, undo and redo, and the job as a file.
import { useRef } from "preact/hooks";
import { Message } from "./controls/labelled_field";
import { saveJob, takeFile } from "./state/work/files";
import { fieldId } from "./state/page/fields";
import { step } from "./state/work/run";
import { isDemo, job, toRedo, toUndo } from "./state/work/work";

export function Masthead() {
  const now = job.value;
  return (
    <header class="masthead">
      <h1 class="masthead-name">
        <Mark />
        Tuckfold
      </h1>
      <p class="masthead-line">From a photograph to a folded canvas, and to the file it is printed from.</p>
      {now !== undefined && (
        <div class="in-hand">
          <p class="in-hand-name">{now.name || "Without a name"}</p>
          {now.client && <p class="in-hand-client">for {now.client}</p>}
          {isDemo.value && (
            <p class="demo-note">
              <strong>This is a demo.</strong> Studio, client and picture are invented. Open a picture of your own to
              begin.
            </p>
          )}
        </div>
      )}
      {now !== undefined && (
        <nav class="masthead-acts" aria-label="The job">
          <button
            type="button"
            class="act"
            disabled={toUndo.value === undefined}
            title={toUndo.value && `Undo: ${toUndo.value}`}
            onClick={() => void step("undo")}
          >
            Undo
          </button>
          <button
            type="button"
            class="act"
            disabled={toRedo.value === undefined}
            title={toRedo.value && `Redo: ${toRedo.value}`}
            onClick={() => void step("redo")}
          >
            Redo
          </button>
          <OpenJob />
          <button type="button" class="act" onClick={saveJob}>
            Save the job
          </button>
        </nav>
      )}
      <Message field="job" />
    </header>
  );
}

function OpenJob() {
  const entry = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="act" id={fieldId("job")} onClick={() => entry.current?.click()}>
        Open a job
      </button>
      <input
        ref={entry}
        type="file"
        class="unseen"
        tabIndex={-1}
        aria-label="Job file"
        data-open="job"
        accept="application/json,.json"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = "";
          if (file) void takeFile(file);
        }}
      />
    </>
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
