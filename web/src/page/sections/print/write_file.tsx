// The button that writes the files, progress, stop, and the measurements of each file.
import type { FileKind, FileReport } from "../../../contract/types";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { bytesShown } from "../../state/layout/consequences";
import { NoteLines } from "../../controls/labelled_field";
import { isAmong, sharedNotes, type MadeFile } from "../../state/output/making";
import { unit } from "../../state/page/settings";
import { sizeShown, trimmed } from "../../../units";
import { printFiles, writeFiles } from "../../state/output/print_files";
import { say, sayParts } from "../../../speech/on_page";

interface WriteFileProps {
  readonly kind: FileKind;
  readonly fits: boolean;
  /** How many files the job has. */
  readonly panels: number;
}

export function WriteFile({ kind, fits, panels }: WriteFileProps) {
  const now = printFiles.now.value;
  const before = now.state === "stopped" ? now.files : 0;
  return (
    <div class="write">
      {now.state === "making" ? (
        <ProgressBar id="write-progress" progress={now} stop={() => printFiles.stop()} />
      ) : (
        <Begin kind={kind} panels={panels} />
      )}
      {!fits && now.state !== "making" && (
        <p class="consequence consequence-bad">
          {say("The sheet or roll does not hold this canvas; you can save the file all the same.")}
        </p>
      )}
      <Outcome
        now={now}
        stopped={say("{words} saved", {
          words: before === 0 ? say("no file was") : say("{before} of the files were", { before }),
        })}
      >
        {(files) => <Reports files={files} />}
      </Outcome>
    </div>
  );
}

/** Each file's report; what holds of all files stands once, below them. */
function Reports({ files }: { readonly files: readonly MadeFile<FileReport>[] }) {
  const shared = sharedNotes(files);
  const [first, ...others] = files;
  if (first === undefined) return null;
  if (others.length === 0)
    return (
      <div id="print-report">
        <Report made={first} />
      </div>
    );
  return (
    <div id="print-report">
      {files.map((made) => (
        <MadeReport
          key={made.report.file}
          made={{ ...made, notes: made.notes.filter((note) => !isAmong(note, shared)) }}
        >
          <p>
            {sayParts("{file}, {bytes}", {
              file: <strong>{made.report.file}</strong>,
              bytes: bytesShown(made.report.bytes),
            })}
          </p>
        </MadeReport>
      ))}
      <div class="report" id="print-report-each">
        <p>{say("All were saved, opened again and measured. Each file:")}</p>
        {/* Panels are of one size, resolution and profile. */}
        <Measured report={first.report} file={formatOf(first.report)} />
        <NoteLines notes={shared} />
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
        {panels === 1 ? say("Save the print file") : say("Save all {panels} files", { panels })}
      </button>
      {panels > 1 &&
        all.map((panel) => (
          <button key={panel} type="button" class="button" onClick={() => void writeFiles(kind, [panel])}>
            {say("Save panel {panel} alone", { panel })}
          </button>
        ))}
    </div>
  );
}

function Report({ made }: { readonly made: MadeFile<FileReport> }) {
  const { report } = made;
  return (
    <MadeReport made={made}>
      <p>{sayParts("{file} was saved, opened again and measured:", { file: <strong>{report.file}</strong> })}</p>
      <Measured
        report={report}
        file={say("{format}, {bytes}", { format: formatOf(report), bytes: bytesShown(report.bytes) })}
      />
    </MadeReport>
  );
}

function formatOf({ format, bits }: FileReport): string {
  return say("{format}, {bits} bits", { format, bits });
}

interface MeasuredProps {
  readonly report: FileReport;
  /** Its format, with its bytes where one file is meant. */
  readonly file: string;
}

function Measured({ report, file }: MeasuredProps) {
  return (
    <dl>
      <dt>{say("Size")}</dt>
      <dd>{sizeShown(report.size_mm[0], report.size_mm[1], unit.value)}</dd>
      <dt>{say("Pixels")}</dt>
      <dd>
        {say("{width_px} × {height_px} at {ppi} ppi", {
          width_px: report.width_px,
          height_px: report.height_px,
          ppi: trimmed(report.ppi[0], 2),
        })}
      </dd>
      <dt>{say("File")}</dt>
      <dd>{file}</dd>
      <dt>{say("Profile")}</dt>
      <dd>{report.profile_name || say("none embedded")}</dd>
    </dl>
  );
}
