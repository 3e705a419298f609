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

/** Each file's report; what is said of all of them stands below. */
function Reports({ files }: { readonly files: readonly MadeFile<FileReport>[] }) {
  const shared = sharedNotes(files);
  return (
    <div id="print-report">
      {files.map((made) => (
        <Report key={made.report.file} made={{ ...made, notes: made.notes.filter((note) => !isAmong(note, shared)) }} />
      ))}
      <NoteLines notes={shared} />
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
        <dd>
          {say("{format}, {bits} bits, {bytes}", {
            format: report.format,
            bits: report.bits,
            bytes: bytesShown(report.bytes),
          })}
        </dd>
        <dt>{say("Profile")}</dt>
        <dd>{report.profile_name || say("none embedded")}</dd>
      </dl>
    </MadeReport>
  );
}
