// The button that writes, how far it is, a way to stop, and what was measured on the file.
import type { FileKind } from "../../contract/types";
import { bytesShown } from "../state/consequences";
import { download } from "../state/files";
import { upper } from "../state/messages";
import { fieldName } from "../state/names";
import { unit } from "../state/settings";
import { sizeShown, trimmed } from "../state/units";
import { stopWriting, type Writing, type WrittenFile, writeFiles, writing } from "../state/writing";

interface WriteFileProps {
  readonly kind: FileKind;
  readonly fits: boolean;
  /** How many files the job has. */
  readonly panels: number;
}

export function WriteFile({ kind, fits, panels }: WriteFileProps) {
  const now = writing.value;
  return (
    <div class="write">
      {now.state === "writing" ? (
        <div class="write-going">
          <label class="field-label" for="write-progress">
            {now.label}
          </label>
          <progress id="write-progress" max={1} value={now.done}>
            {Math.round(now.done * 100)} %
          </progress>
          <button type="button" class="button" onClick={stopWriting}>
            Stop
          </button>
        </div>
      ) : (
        <Begin kind={kind} panels={panels} />
      )}
      {!fits && now.state !== "writing" && (
        <p class="consequence consequence-bad">
          What is loaded does not hold this canvas; the file can be written all the same.
        </p>
      )}
      <div aria-live="polite">
        <Outcome now={now} />
      </div>
    </div>
  );
}

/** All files of the job, or one panel's alone. */
function Begin({ kind, panels }: { readonly kind: FileKind; readonly panels: number }) {
  const all = Array.from({ length: panels }, (_, place) => place + 1);
  return (
    <div class="write-begin">
      <button type="button" class="button button-main" id="write-print" onClick={() => void writeFiles(kind, all)}>
        {panels === 1 ? "Write the print file" : `Write all ${panels} files`}
      </button>
      {panels > 1 &&
        all.map((panel) => (
          <button key={panel} type="button" class="button" onClick={() => void writeFiles(kind, [panel])}>
            Panel {panel} alone
          </button>
        ))}
    </div>
  );
}

function Outcome({ now }: { readonly now: Writing }) {
  if (now.state === "stopped") return <p class="consequence">Stopped; {now.files === 0 ? "no file was" : `${now.files} of the files were`} written.</p>;
  if (now.state === "failed") {
    const { field, expected, got, remedy } = now.message;
    return (
      <p class="message">
        {field !== "" && <strong>{upper(fieldName(field))}: </strong>}
        expected {expected}; got {got}. <em>{upper(remedy)}.</em>
      </p>
    );
  }
  if (now.state !== "written") return null;
  return (
    <div id="print-report">
      {now.files.map((one) => (
        <Report key={one.report.file} {...one} />
      ))}
    </div>
  );
}

function Report({ report, file, notes }: WrittenFile) {
  return (
    <div class="report">
      <p>
        <strong>{report.file}</strong> was written, opened again and measured:
      </p>
      <dl>
        <dt>Size</dt>
        <dd>{sizeShown(report.size_mm[0], report.size_mm[1], unit.value)}</dd>
        <dt>Pixels</dt>
        <dd>
          {report.width_px} × {report.height_px} at {trimmed(report.ppi[0], 2)} ppi
        </dd>
        <dt>File</dt>
        <dd>
          {report.format}, {report.bits} bits, {bytesShown(report.bytes)}
        </dd>
        <dt>Profile</dt>
        <dd>{report.profile_name}</dd>
      </dl>
      {notes.map((note) => (
        <p key={note.code} class="consequence">
          {note.message} {note.remedy}
        </p>
      ))}
      <button type="button" class="button" onClick={() => download(file, report.file)}>
        Save it again
      </button>
    </div>
  );
}
