// The print section: resolution, marks, format and colours of the print file.
import { JobControls } from "../../controls/job_controls";
import { useSignal } from "@preact/signals";
import type { FileKind } from "../../../contract/types";
import { Choice, RadioGroup } from "../../controls/choice";
import { NumberField } from "../../controls/fields";
import { Consequence, FieldErrorText } from "../../controls/labelled_field";
import { profileReplies, ILLUSTRATIVE } from "../../state/colour/profiles";
import { ILLUSTRATION } from "../../state/colour/words";
import { filePixels } from "../../state/layout/consequences";
import { capitalised } from "../../state/page/fields";
import { conversions, FORMATS } from "../../state/page/names";
import { setPrint } from "../../state/work/edit";
import { propose } from "../../state/work/run";
import { job, picture, shown } from "../../state/work/work";
import { Pixels } from "./pixels";
import { PrintingSteps } from "./printing_steps";
import { ProofStrip } from "./proof_strip";
import { WriteFile } from "./write_file";
import { say } from "../../../speech/on_page";

export function PrintSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  const kind = useSignal<FileKind>("tiff");
  if (now === undefined || layout === undefined) return null;
  return (
    <>
      <NumberField
        field="print.ppi"
        label={say("Resolution")}
        value={now.print.ppi}
        set={(ppi) => setPrint({ ppi })}
        unit="ppi"
        by={10}
        consequence={filePixels(layout, now)}
      />
      <Pixels kind={kind.value} />
      <div class="field" data-field="print.marks">
        <JobControls>
          <label class="tick">
            <input
              id="field-print-marks"
              type="checkbox"
              checked={now.print.marks}
              onChange={(event) =>
                void propose({
                  field: "print.marks",
                  label: say("marks"),
                  change: setPrint({ marks: event.currentTarget.checked }),
                })
              }
            />
            <span>{say("Fold and trim marks, and a line of text")}</span>
          </label>
        </JobControls>
        <Consequence
          text={now.print.marks ? say("They stand only where nobody sees them.") : say("Only the picture is printed.")}
        />
        <FieldErrorText field="print.marks" />
      </div>
      <div class="field">
        <RadioGroup
          id="print-kind"
          label={say("Format")}
          value={kind.value}
          options={FORMATS}
          choose={(chosen) => (kind.value = chosen)}
        />
        <p class="meaning">{capitalised(FORMATS.find((format) => format.value === kind.value)?.meaning ?? "")}.</p>
      </div>
      <PrintColours />
      <PrintingSteps job={now} layout={layout} />
      <WriteFile kind={kind.value} fits={layout.sheet.fits} panels={now.group.panels} />
      <ProofStrip />
    </>
  );
}

function PrintColours() {
  const now = job.value;
  if (now === undefined) return null;
  const { print, colour } = now;
  const converts = print.convert === "convert";
  const profile = profileReplies.value[colour.profile]?.description ?? colour.profile;
  const brought = colour.bring_in > 0 ? say(" The file holds the colours as they were brought in.") : "";
  const consequence = converts
    ? say(
        "The colours are converted to {profile}. Do not convert the file again: switch colour management off in the printing program.{brought}",
        { profile, brought },
      )
    : say(
        "Let the printing program convert them once, to the profile of this canvas on this printer, unless they are in it already.{brought}",
        {
          brought,
        },
      );
  return (
    <>
      <Choice
        field="print.convert"
        label={say("Colours in the file")}
        value={print.convert}
        options={conversions(picture.value?.info)}
        set={(convert) => setPrint({ convert })}
        consequence={consequence}
      />
      {converts && colour.profile === ILLUSTRATIVE && (
        <p class="illustration" id="convert-warning">
          {say("{illustration} No printer has these values: use such a file for trials only.", {
            illustration: ILLUSTRATION,
          })}
        </p>
      )}
    </>
  );
}
