// Under the drawing of the sheet: whether it holds the canvas, and what the lines mean.
import { RadioGroup } from "../controls/choice";
import { colourView } from "../state/colour/viewing";
import { allFit } from "../state/layout/panels";
import { sheetAsked, sheetCount, sheetShown } from "../state/layout/sheet_shown";
import { unit } from "../state/page/settings";
import { isFixed } from "../state/work/fixed";
import { job, shown } from "../state/work/work";
import { ColourCaption } from "./colour_caption";
import { say } from "../../speech/on_page";

export function SheetWords() {
  const layout = shown.value?.layout;
  const now = job.value;
  if (layout === undefined || now === undefined) return null;
  // The words about colours take the room of those about lines, so that the sheet keeps its size.
  if (colourView.value !== "filed") return <ColourCaption place="controls" />;
  return (
    <div class="sheet-words">
      <p class={layout.sheet.fits ? "sheet-says" : "sheet-says sheet-short"}>{allFit(layout, now, unit.value)}</p>
      {sheetCount.value > 1 && (
        <RadioGroup
          id="sheet-shown"
          label={say("Sheet")}
          quiet
          value={String(sheetShown.value)}
          options={Array.from({ length: sheetCount.value }, (_, sheet) => ({
            value: String(sheet),
            word: say("Sheet {sheet} of {sheetCount}", { sheet: sheet + 1, sheetCount: sheetCount.value }),
          }))}
          choose={(sheet) => (sheetAsked.value = Number(sheet))}
        />
      )}
      <ul class="legend">
        <li>
          <Key class="line-fold" /> {say("fold here")}
        </li>
        <li>
          <Key class="line-trim" /> {say("trim here")}
        </li>
        <li>
          <span class="legend-margin" aria-hidden="true" /> {say("not printable")}
        </li>
        {!isFixed("picture.crop") && (
          <li class="legend-hint">{say("Drag or scroll to move and scale the picture.")}</li>
        )}
      </ul>
    </div>
  );
}

function Key({ class: name }: { readonly class: string }) {
  return (
    <svg class="legend-key" viewBox="0 0 24 4" aria-hidden="true">
      <path class={name} d="M0 2h24" />
    </svg>
  );
}
