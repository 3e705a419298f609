// The sheet section: what is loaded in the printer.
import { RadioGroup } from "../controls/choice";
import { GlossaryWord } from "../controls/glossary_word";
import { LengthEntry, LengthField } from "../controls/fields";
import { More } from "../controls/section";
import { Consequence, FieldErrorText, LabelledField } from "../controls/labelled_field";
import { canvasCut, sheetFit } from "../state/layout/consequences";
import { setMargin, setSheet } from "../state/work/edit";
import { fieldId } from "../state/page/fields";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { SHEETS, sheetName } from "../state/layout/sizes";
import { job, shown } from "../state/work/work";

const MARGINS = ["Top", "Right", "Bottom", "Left"] as const;

export function SheetSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  if (now === undefined || layout === undefined) return null;
  const { sheet } = now;
  const { width_mm, height_mm } = sheet;
  const roll = height_mm === undefined;
  const load = (width: number, height: number | undefined): void =>
    void propose({ field: "sheet.width_mm", label: "the sheet", change: setSheet(width, height) });
  return (
    <>
      <RadioGroup
        id="sheet-kind"
        label="Loaded in the printer"
        value={roll ? "roll" : "sheet"}
        options={[
          { value: "sheet", word: "A sheet" },
          { value: "roll", word: "A roll" },
        ]}
        choose={(kind) => load(width_mm, kind === "roll" ? undefined : Math.max(50, Math.round(width_mm * 1.468)))}
      />
      <div class="field">
        <label class="field-label" for="sheet-known">
          Known by name
        </label>
        <select
          id="sheet-known"
          value={sheetName(width_mm, height_mm) ?? ""}
          onChange={(event) => {
            const chosen = SHEETS.find((size) => size.name === event.currentTarget.value);
            if (chosen) load(chosen.width_mm, chosen.height_mm);
          }}
        >
          <option value="">Of its own size</option>
          {SHEETS.map((size) => (
            <option key={size.name}>{size.name}</option>
          ))}
        </select>
      </div>
      <div class="pair">
        <LengthField
          field="sheet.width_mm"
          label="Width"
          value={width_mm}
          set={(width) => setSheet(width, height_mm)}
        />
        {height_mm !== undefined && (
          <LengthField
            field="sheet.height_mm"
            label="Height"
            value={height_mm}
            set={(height) => setSheet(width_mm, height)}
          />
        )}
      </div>
      <p class={layout.sheet.fits ? "consequence" : "consequence consequence-bad"}>
        {sheetFit(layout, now, unit.value)}
      </p>
      <Consequence text={canvasCut(layout, unit.value)} />
      <More summary="Unprintable margins">
        <div class="margins" id={fieldId("sheet.margin_mm")} data-field="sheet.margin_mm">
          {MARGINS.map((label, place) => {
            const field = `sheet.margin_mm.${place}`;
            return (
              <LabelledField key={label} field={field} label={label}>
                <LengthEntry
                  field={field}
                  label={`margin, ${label}`}
                  value={sheet.margin_mm[place] ?? 0}
                  set={(mm) => setMargin(place, mm)}
                />
              </LabelledField>
            );
          })}
        </div>
        <FieldErrorText field="sheet.margin_mm" />
        <p class="consequence">
          <GlossaryWord entry="margin">Margins</GlossaryWord> are strips that the printer cannot ink: the ink must lie
          within them, bare canvas may lie on them.
        </p>
      </More>
    </>
  );
}
