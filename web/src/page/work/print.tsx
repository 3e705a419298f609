// Last: the print file.
import { useSignal } from "@preact/signals";
import type { FileKind } from "../../contract/types";
import { Words } from "../controls/choice";
import { NumberField } from "../controls/fields";
import { Section } from "../controls/section";
import { Consequence, Message } from "../controls/shell";
import { filePixels } from "../state/consequences";
import { setPrint } from "../state/edit";
import { upper } from "../state/messages";
import { FORMATS } from "../state/names";
import { propose } from "../state/run";
import { job, shown } from "../state/work";
import { PrintColours } from "./print_colours";
import { WriteFile } from "./write_file";

export function PrintSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  const kind = useSignal<FileKind>("tiff");
  if (now === undefined || layout === undefined) return null;
  return (
    <Section id="print" number={8} title="Print">
      <NumberField
        field="print.ppi"
        label="Resolution"
        value={now.print.ppi}
        set={(ppi) => setPrint({ ppi })}
        unit="ppi"
        by={10}
        consequence={filePixels(layout, now)}
      />
      <div class="field" data-field="print.marks">
        <label class="tick">
          <input
            id="field-print-marks"
            type="checkbox"
            checked={now.print.marks}
            onChange={(event) =>
              void propose({
                field: "print.marks",
                label: "marks",
                change: setPrint({ marks: event.currentTarget.checked }),
              })
            }
          />
          <span>Fold and trim marks, and a line of text</span>
        </label>
        <Consequence
          text={now.print.marks ? "Only where they will not be seen." : "Nothing but the picture is printed."}
        />
        <Message field="print.marks" />
      </div>
      <div class="field">
        <Words
          id="print-kind"
          label="Format"
          value={kind.value}
          options={FORMATS}
          choose={(chosen) => (kind.value = chosen)}
        />
        <p class="meaning">{upper(FORMATS.find((format) => format.value === kind.value)?.meaning ?? "")}.</p>
      </div>
      <PrintColours />
      <WriteFile kind={kind.value} fits={layout.sheet.fits} panels={now.group.panels} />
    </Section>
  );
}
