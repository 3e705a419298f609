// The sheet section: what is loaded in the printer, and the canvas that it is made of.
import { RadioGroup } from "../controls/choice";
import { GlossaryWord } from "../controls/glossary_word";
import { LengthEntry, LengthField } from "../controls/fields";
import { UnitChoice } from "../controls/unit_choice";
import { More } from "../controls/section";
import { Consequence, FieldErrorText, LabelledField } from "../controls/labelled_field";
import { canvasCut, sheetFit } from "../state/layout/consequences";
import { setMargin, setSheet } from "../state/work/edit";
import { fieldId } from "../state/page/fields";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { SheetMemory } from "../state/layout/sheet_or_roll";
import { SHEET_GROUPS, SHEETS, sheetName } from "../state/layout/sizes";
import { job, shown } from "../state/work/work";
import { CanvasSection } from "./canvas";
import { OwnSizes, OwnSizesFile } from "./own_sizes";

const memory = new SheetMemory();

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
      <UnitChoice id="unit-sheet" />
      <RadioGroup
        id="sheet-kind"
        label="Loaded in the printer"
        value={roll ? "roll" : "sheet"}
        options={[
          { value: "sheet", word: "A sheet" },
          { value: "roll", word: "A roll" },
        ]}
        choose={(kind) => void propose({ field: "sheet.width_mm", label: "the sheet", change: memory.load(kind, now) })}
      />
      <div class="field">
        <label class="field-label" for="sheet-known">
          Standard size
        </label>
        <select
          id="sheet-known"
          value={sheetName(width_mm, height_mm) ?? ""}
          onChange={(event) => {
            const chosen = SHEETS.find((size) => size.name === event.currentTarget.value);
            if (chosen) load(chosen.width_mm, chosen.height_mm);
          }}
        >
          <option value="">Own size</option>
          {SHEET_GROUPS.map((group) => (
            <optgroup key={group.name} label={group.name}>
              {group.sizes.map((size) => (
                <option key={size.name}>{size.name}</option>
              ))}
            </optgroup>
          ))}
        </select>
      </div>
      <div class="pair">
        <LengthField
          field="sheet.width_mm"
          label={height_mm === undefined ? "Roll width" : "Sheet width"}
          value={width_mm}
          set={(width) => setSheet(width, height_mm)}
        />
        {height_mm !== undefined && (
          <LengthField
            field="sheet.height_mm"
            label="Sheet height"
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
          The printer cannot print on these strips, the <GlossaryWord entry="margin">margins</GlossaryWord>. The print
          must lie between them; bare canvas may lie on them.
        </p>
      </More>
      <OwnSizes key={roll ? "roll" : "sheet"} kind={roll ? "roll" : "sheet"} />
      <More summary="The canvas: thickness, weight, how much it gives">
        <CanvasSection />
      </More>
      <OwnSizes kind="canvas" />
      <OwnSizesFile />
    </>
  );
}
