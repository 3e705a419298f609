// The proof strip: a small print before the piece, and what a device measured on it.
import { ErrorText, Practice } from "../../controls/labelled_field";
import { MadeReport, Outcome, ProgressBar } from "../../controls/making";
import { OpenFile } from "../../controls/open_file";
import { labShown } from "../../state/colour/words";
import {
  expectedValues,
  measuredStrip,
  openExpectedValues,
  openMeasuredValues,
  proofStrip,
  saveExpectedValues,
  saveStrip,
} from "../../state/output/proof_strip";
import { unit } from "../../state/page/settings";
import { sizeShown } from "../../../units";
import { MeasuredStrip } from "./measured_strip";
import { say, sayParts } from "../../../speech/on_page";

const TEXTS = ".txt,.cgats,.ti3,text/plain";

export function ProofStrip() {
  const now = proofStrip.now.value;
  return (
    <div class="part" id="proof-strip">
      <h3 class="minor">{say("Proof strip")}</h3>
      <p class="meaning">
        {say(
          "A strip of canvas as wide as a hand, printed before the piece: greys, the colours that miss the gamut most, a detail of the face, and a piece of a side with its folds.",
        )}
        <Practice />
      </p>
      {now.state === "making" ? (
        <ProgressBar id="strip-progress" progress={now} stop={() => proofStrip.stop()} />
      ) : (
        <button type="button" class="button" id="save-strip" onClick={() => void saveStrip()}>
          {say("Save the proof strip")}
        </button>
      )}
      <Outcome now={now} stopped={say("no strip was saved")}>
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made} id="strip-report">
              <p>
                {sayParts(
                  "{file} was saved, opened again and measured: {size_mm}, {patchCount} patches. Print it as you will print the piece.",
                  {
                    file: <strong>{made.report.file}</strong>,
                    size_mm: sizeShown(made.report.size_mm[0], made.report.size_mm[1], unit.value),
                    patchCount: made.report.patches.length,
                  },
                )}
              </p>
              <dl>
                <dt>{say("Strip")}</dt>
                <dd>{made.report.strip_id}</dd>
                <dt>{say("Bare canvas")}</dt>
                <dd>{made.report.patches[0] && labShown(made.report.patches[0].lab)}</dd>
              </dl>
            </MadeReport>
          ))
        }
      </Outcome>
      <Measuring />
    </div>
  );
}

function Measuring() {
  const expected = expectedValues.value;
  const now = measuredStrip.value;
  return (
    <div class="strip-measuring">
      <p class="consequence" id="strip-expected">
        {expected
          ? say(
              "The profile's promise for each patch is in {file}. Measure the print and open what the device found.",
              { file: expected.file },
            )
          : say("With a measuring device: save a strip, or open the values that were saved beside one.")}
      </p>
      <div class="row">
        {expected && (
          <button type="button" class="button" onClick={saveExpectedValues}>
            {say("Save its values again")}
          </button>
        )}
        <OpenFile
          id="open-strip-values"
          label={say("Open a strip's values")}
          accept={TEXTS}
          open={(file) => void openExpectedValues(file)}
        />
        {expected && (
          <OpenFile
            id="open-measured"
            label={say("Open measured values")}
            accept={TEXTS}
            open={(file) => void openMeasuredValues(file)}
          />
        )}
      </div>
      <div aria-live="polite">
        {now.state === "refused" && <ErrorText why={now.why} />}
        {now.state === "read" && <MeasuredStrip check={now.check} file={now.file} />}
      </div>
    </div>
  );
}
