// The cutting section: the job's panels and copies on the loaded sheet or roll, drawn to scale, with cuts and cost.
import { CalmText } from "../../controls/calm_text";
import { Entry, type Parsed } from "../../controls/entry";
import type { Plan } from "../../../contract/types";
import { ErrorText, LabelledField, NoteLines } from "../../controls/labelled_field";
import { More } from "../../controls/section";
import { useSeen } from "../../controls/small_picture";
import { unit } from "../../state/page/settings";
import { chosenPiece, cuttingPlan, pinRefused, planAgain, planQuery, planSeen } from "../../state/plan/cutting";
import { pieceNamed } from "../../state/plan/pins";
import { choose, planChoices } from "../../state/plan/options";
import { cutText, pieceText, planRows, planSentence, sheetHead } from "../../state/plan/words";
import { clearFieldErrors } from "../../state/page/fields";
import { parseNumber, trimmed } from "../../../units";
import { SheetDrawing } from "./drawing";
import { Pinning } from "./pinning";
import { PlanLength } from "./plan_length";
import { say } from "../../../speech/on_page";

/** So many sheets are drawn; more of them look alike. */
const DRAWN = 6;

export function CuttingSection() {
  const place = useSeen(planSeen);
  const plan = cuttingPlan.value;
  const failure = pinRefused.value ?? planQuery.failure.value;
  return (
    <div ref={place} data-pending={planQuery.pending.value}>
      <Choices />
      <div aria-live="polite">{failure !== undefined && <ErrorText why={failure} />}</div>
      {/* What is about no field was nobody's mistake: a part of the program did not come. */}
      {failure?.field === "" && (
        <button type="button" class="button" onClick={planAgain}>
          {say("Try again")}
        </button>
      )}
      {plan !== undefined && (
        <>
          <p class="consequence" id="plan-says">
            {planSentence(plan, unit.value)}
          </p>
          <CalmText words={planWords(plan)} of="#cutting *" />
          <table class="figures order" id="plan-figures">
            <caption class="visually-hidden">{say("Canvas taken, used and wasted")}</caption>
            <tbody>
              {planRows(plan).map(({ name, head, text }) => (
                <tr key={name} data-row={name}>
                  <th scope="row">{head}</th>
                  <td>{text}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <NoteLines notes={plan.notes} />
          {plan.sheets.slice(0, DRAWN).map((sheet) => (
            <figure key={sheet.number} class="cutting-sheet">
              <figcaption>{sheetHead(sheet, unit.value)}</figcaption>
              <SheetDrawing sheet={sheet} />
            </figure>
          ))}
          {plan.sheets.length > DRAWN && (
            <p class="aside">{say("{sheetCount} more are not drawn.", { sheetCount: plan.sheets.length - DRAWN })}</p>
          )}
          <Pinning plan={plan} />
          <More summary={say("The cuts in order")}>
            {plan.sheets.map((sheet) => (
              <div key={sheet.number}>
                <h4 class="minor">{sheetHead(sheet, unit.value)}</h4>
                <ol class="steps cutting-cuts">
                  {sheet.cuts.map((cut) => (
                    <li key={cut.number}>{cutText(cut, unit.value)}.</li>
                  ))}
                </ol>
              </div>
            ))}
            <p class="aside">{say("Each cut runs from edge to edge of what the cuts before it left as one.")}</p>
          </More>
        </>
      )}
    </div>
  );
}

/** What the plan has come to, and where the chosen piece lies in it. */
function planWords(plan: Plan): string {
  const found = pieceNamed(plan, chosenPiece.value ?? "");
  const sentence = planSentence(plan, unit.value);
  return found === undefined ? sentence : `${pieceText(found.piece, unit.value)}. ${sentence}`;
}

function Choices() {
  const now = planChoices.value;
  return (
    <>
      <div class="pair">
        <LabelledField field="plan.copies" label={say("Copies")}>
          <Entry
            field="plan.copies"
            value={now.copies}
            text={String}
            parse={wholeNumber}
            commit={(copies) => set("plan.copies", { copies })}
            step={(copies, steps) => Math.max(1, copies + steps)}
          />
        </LabelledField>
        <LabelledField field="plan.price" label={say("Price of a square metre")}>
          <Entry
            field="plan.price"
            value={now.price === undefined ? "" : trimmed(now.price, 4)}
            text={(text) => text}
            parse={price}
            commit={(text) => set("plan.price", { price: parseNumber(text) })}
          />
        </LabelledField>
      </div>
      <div class="pair">
        <PlanLength field="plan.gap_mm" label={say("Gap")} value={now.gap_mm} commit={(gap_mm) => choose({ gap_mm })} />
        <PlanLength
          field="plan.knife_mm"
          label={say("Width of the cut")}
          value={now.knife_mm}
          commit={(knife_mm) => choose({ knife_mm })}
        />
      </div>
      <p class="consequence">{say("The knife passes within the gap. A price is in your own money.")}</p>
      <div class="field">
        <label class="tick">
          <input
            type="checkbox"
            id="plan-never-turned"
            checked={now.never_turned}
            onChange={(event) => choose({ never_turned: event.currentTarget.checked })}
          />
          <span>{say("Turn no piece, because the weave differs by direction")}</span>
        </label>
      </div>
    </>
  );
}

function set(field: string, change: Parameters<typeof choose>[0]): void {
  clearFieldErrors(field);
  choose(change);
}

function wholeNumber(text: string): Parsed<number> {
  const number = parseNumber(text);
  return number !== undefined && Number.isInteger(number) && number >= 1
    ? { ok: true, value: number }
    : { ok: false, expected: say("a whole number, for example 3") };
}

function price(text: string): Parsed<string> {
  const isPrice = text.trim() === "" || parseNumber(text) !== undefined;
  return isPrice ? { ok: true, value: text.trim() } : { ok: false, expected: say("a number, for example 14.50") };
}
