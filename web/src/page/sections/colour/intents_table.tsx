// A table of every intent's figures on this picture, with the recommended one and its reason. Each row can be chosen.
import { JobControls } from "../../controls/job_controls";
import type { IntentRow, IntentsReply } from "../../../contract/types";
import { intentFigures } from "../../state/colour/words";
import { setColour } from "../../state/work/edit";
import { capitalised } from "../../state/page/fields";
import { propose } from "../../state/work/run";
import { job } from "../../state/work/work";
import { typeset } from "../../../speech/figures";
import { say } from "../../../speech/on_page";

const COLUMNS: readonly { readonly head: string; readonly unit: string; readonly meaning: string }[] = [
  { head: say("Flattened"), unit: "%", meaning: say("of the picture out of gamut and printed flat on its boundary") },
  { head: say("Mean"), unit: "ΔE00", meaning: say("difference between original and print") },
  { head: say("95th"), unit: "ΔE00", meaning: say("19 of 20 colours differ by less") },
  { head: say("Shadow##tones"), unit: "%", meaning: say("of the steps within the shadows lost") },
  { head: say("High"), unit: "%", meaning: say("of the steps within the highlights lost") },
  { head: say("Hue"), unit: "°", meaning: say("mean turn of hue") },
  { head: say("Chroma"), unit: "C*", meaning: say("mean change of chroma") },
];

interface IntentsTableProps {
  readonly reply: IntentsReply;
  /** The job has changed since. */
  readonly outdated: boolean;
}

export function IntentsTable({ reply, outdated }: IntentsTableProps) {
  return (
    <div class="intents" data-outdated={outdated} id="intents">
      {outdated && <p class="aside">{say("These figures are of the job before its last changes.")}</p>}
      <table class="figures">
        <caption class="visually-hidden">{say("The rendering intents on the original picture")}</caption>
        <thead>
          <tr>
            {COLUMNS.map(({ head, unit, meaning }) => (
              <th key={head} scope="col" title={meaning}>
                {head} <span>{unit}</span>
              </th>
            ))}
          </tr>
        </thead>
        {reply.rows.map((row, place) => (
          <OneIntent key={row.label} row={row} recommended={place === reply.recommended} />
        ))}
      </table>
      <p class="consequence" id="intents-reason">
        {say("Recommended: {replaceAll} No rule holds for every picture; choose the one you like.", {
          replaceAll: capitalised(typeset(reply.reason)),
        })}
      </p>
      <dl class="glossary">
        {COLUMNS.map(({ head, meaning }) => (
          <div key={head}>
            <dt>{head}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

function OneIntent({ row, recommended }: { readonly row: IntentRow; readonly recommended: boolean }) {
  const chosen = isChosen(row);
  const id = `intent-${row.intent}-${row.black_point_compensation}`;
  return (
    <tbody data-chosen={chosen}>
      <tr class="figures-name">
        <th scope="rowgroup" colSpan={COLUMNS.length}>
          <span class="figures-line">
            <span id={id}>
              {capitalised(row.label)}
              {recommended && <span class="tag">{say("recommended")}</span>}
            </span>
            <JobControls>
              <button
                type="button"
                class="link"
                aria-describedby={id}
                aria-pressed={chosen}
                onClick={() => {
                  if (!chosen)
                    void propose({ field: "colour.intent", label: say("rendering intent"), change: choose(row) });
                }}
              >
                {chosen ? say("in use") : say("use it")}
              </button>
            </JobControls>
          </span>
        </th>
      </tr>
      <tr>
        {intentFigures(row).map((figure, column) => (
          <td key={COLUMNS[column]?.head}>{figure}</td>
        ))}
      </tr>
    </tbody>
  );
}

/** Compensation has no part in the absolute intent, so its row holds either way. */
function isChosen(row: IntentRow): boolean {
  const colour = job.value?.colour;
  if (colour?.intent !== row.intent) return false;
  return row.intent === "absolute" || colour.black_point_compensation === row.black_point_compensation;
}

function choose({ intent, black_point_compensation }: IntentRow) {
  return setColour(intent === "absolute" ? { intent } : { intent, black_point_compensation });
}
