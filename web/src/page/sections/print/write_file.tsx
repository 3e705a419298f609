// The button that writes the files, progress, stop, and the measurements of each file.
import type { FileKind, FileReport } from "../../../contract/types";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { bytesShown } from "../../state/layout/consequences";
import type { MadeFile } from "../../state/output/making";
import { unit } from "../../state/page/settings";
import { sizeShown, trimmed } from "../../../units";
import { printFiles, writeFiles } from "../../state/output/print_files";

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
          The sheet or roll does not hold this canvas; you can save the file all the same.
        </p>
      )}
      <Outcome now={now} stopped={`${before === 0 ? "no file was" : `${before} of the files were`} saved`}>
        {(files) => (
          <div id="print-report">
            {files.map((made) => (
              <Report key={made.report.file} made={made} />
            ))}
          </div>
        )}
      </Outcome>
    </div>
  );
}

/** All files of the job, or one panel's alone. */
function Begin({ kind, panels }: { readonly kind: FileKind; readonly panels: number }) {
  const all = Array.from({ length: panels }, (_, place) => place + 1);
  return (
    <div class="write-begin">
      <button type="button" class="button button-main" id="write-print" onClick={() => void writeFiles(kind, all)}>
        {panels === 1 ? "Save the print file" : `Save all ${panels} files`}
      </button>
      {panels > 1 &&
        all.map((panel) => (
          <button key={panel} type="button" class="button" onClick={() => void writeFiles(kind, [panel])}>
            Save panel {panel} alone
          </button>
        ))}
    </div>
  );
}

function Report({ made }: { readonly made: MadeFile<FileReport> }) {
  const { report } = made;
  return (
    <MadeReport made={made}>
      <p>
        <strong>{report.file}</strong> was saved, opened again and measured:
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
    </MadeReport>
  );
}
