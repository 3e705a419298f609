// The sheet section: what is loaded in the printer, and the canvas that it is made of.
import { JobControls } from "../controls/job_controls";
import { RadioGroup } from "../controls/choice";
import { GlossaryWord } from "../controls/glossary_word";
import { LengthEntry, LengthField } from "../controls/fields";
import { UnitChoice } from "../controls/unit_choice";
import { More } from "../controls/section";
import { Consequence, FieldErrorText, LabelledField } from "../controls/labelled_field";
import { canvasCut } from "../state/layout/consequences";
import { allFit } from "../state/layout/panels";
import { setMargin, setSheet, setSheetHeight, setSheetWidth } from "../state/work/edit";
import { fieldId } from "../state/page/fields";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { SheetMemory } from "../state/layout/sheet_or_roll";
import { SHEET_GROUPS, SHEETS, sheetName } from "../state/layout/sizes";
import { job, shown } from "../state/work/work";
import { CanvasSection } from "./canvas";
import { OwnSizes, OwnSizesFile } from "./own_sizes";
import { say, sayParts } from "../../speech/on_page";

const memory = new SheetMemory();

const MARGINS = [say("Top"), say("Right"), say("Bottom"), say("Left")];

export function SheetSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  if (now === undefined || layout === undefined) return null;
  const { sheet } = now;
  const { width_mm, height_mm } = sheet;
  const roll = height_mm === undefined;
  const load = (width: number, height: number | undefined): void =>
    void propose({ field: "sheet.width_mm", label: say("the sheet"), change: setSheet(width, height) });
  return (
    <>
      <UnitChoice id="unit-sheet" />
      <JobControls>
        <div class="field">
          <RadioGroup
            id="sheet-kind"
            label={say("Loaded in the printer")}
            value={roll ? "roll" : "sheet"}
            options={[
              { value: "sheet", word: say("A sheet") },
              { value: "roll", word: say("A roll") },
            ]}
            choose={(kind) =>
              void propose({ field: "sheet.width_mm", label: say("the sheet"), change: memory.load(kind, now) })
            }
          />
        </div>
        <div class="field">
          <label class="field-label" for="sheet-known">
            {say("Standard size")}
          </label>
          <select
            id="sheet-known"
            value={sheetName(width_mm, height_mm) ?? ""}
            onChange={(event) => {
              const chosen = SHEETS.find((size) => size.name === event.currentTarget.value);
              // A size of one's own is typed: until then the loaded one stays chosen.
              if (chosen) load(chosen.width_mm, chosen.height_mm);
              else event.currentTarget.value = sheetName(width_mm, height_mm) ?? "";
            }}
          >
            <option value="">{say("Own size")}</option>
            {SHEET_GROUPS.map((group) => (
              <optgroup key={group.name} label={group.name}>
                {group.sizes.map((size) => (
                  <option key={size.name}>{size.name}</option>
                ))}
              </optgroup>
            ))}
          </select>
        </div>
      </JobControls>
      <div class="pair">
        <LengthField
          field="sheet.width_mm"
          label={height_mm === undefined ? say("Roll width") : say("Sheet width")}
          value={width_mm}
          set={setSheetWidth}
        />
        {height_mm !== undefined && (
          <LengthField field="sheet.height_mm" label={say("Sheet height")} value={height_mm} set={setSheetHeight} />
        )}
      </div>
      <p class={layout.sheet.fits ? "consequence" : "consequence consequence-bad"}>{allFit(layout, now, unit.value)}</p>
      <Consequence text={canvasCut(layout, unit.value)} />
      <More summary={say("Unprintable margins")}>
        <div class="margins" id={fieldId("sheet.margin_mm")} data-field="sheet.margin_mm">
          {MARGINS.map((label, place) => {
            const field = `sheet.margin_mm.${place}`;
            return (
              <LabelledField key={label} field={field} label={label}>
                <LengthEntry
                  field={field}
                  label={say("margin, {label}", { label })}
                  value={sheet.margin_mm[place] ?? 0}
                  set={(mm) => setMargin(place, mm)}
                />
              </LabelledField>
            );
          })}
        </div>
        <FieldErrorText field="sheet.margin_mm" />
        <p class="consequence">
          {sayParts(
            "The printer cannot print on these strips, the {link}. The print must lie between them; bare canvas may lie on them.",
            { link: <GlossaryWord entry="margin">{say("margins")}</GlossaryWord> },
          )}
        </p>
      </More>
      <OwnSizes key={roll ? "roll" : "sheet"} kind={roll ? "roll" : "sheet"} />
      <More summary={say("The canvas: thickness, weight, how much it gives")}>
        <CanvasSection />
      </More>
      <OwnSizes kind="canvas" />
      <OwnSizesFile />
    </>
  );
}
