// Every intent's figures on this picture; the recommended one with its reason. Any of them can be taken.
import type { IntentRow, IntentsReply } from "../../../contract/types";
import { intentFigures } from "../../state/colour/words";
import { setColour } from "../../state/work/edit";
import { upper } from "../../state/page/fields";
import { propose } from "../../state/work/run";
import { job } from "../../state/work/work";

const COLUMNS: readonly { readonly head: string; readonly unit: string; readonly meaning: string }[] = [
  { head: "Clips", unit: "%", meaning: "of the picture outside the gamut and printed flat on its boundary" },
  { head: "Mean", unit: "ΔE00", meaning: "difference between filed and printed" },
  { head: "95th", unit: "ΔE00", meaning: "19 of 20 colours differ by less" },
  { head: "Shadow", unit: "%", meaning: "of the steps within the shadows lost" },
  { head: "High", unit: "%", meaning: "of the steps within the highlights lost" },
  { head: "Hue", unit: "°", meaning: "mean turn of hue" },
  { head: "Chroma", unit: "C*", meaning: "mean change of chroma" },
];

interface IntentsTableProps {
  readonly reply: IntentsReply;
  /** The job has changed since. */
  readonly outdated: boolean;
}

export function IntentsTable({ reply, outdated }: IntentsTableProps) {
  return (
    <div class="intents" data-outdated={outdated} id="intents">
      {outdated && <p class="aside">These figures are of the job as it was before its last changes.</p>}
      <table class="figures">
        <caption class="unseen">The rendering intents on this picture, as filed</caption>
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
        Recommended: {upper(reply.reason.replaceAll("dE00", "ΔE00"))} There is no rule that holds for every picture;
        take whichever you like.
      </p>
      <dl class="key-words">
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
  const taken = isTaken(row);
  const id = `intent-${row.intent}-${row.black_point_compensation}`;
  return (
    <tbody data-taken={taken}>
      <tr class="figures-name">
        <th scope="rowgroup" colSpan={COLUMNS.length}>
          <span class="figures-line">
            <span id={id}>
              {upper(row.label)}
              {recommended && <span class="tag">recommended</span>}
            </span>
            <button
              type="button"
              class="link"
              aria-describedby={id}
              aria-pressed={taken}
              onClick={() => {
                if (!taken) void propose({ field: "colour.intent", label: "rendering intent", change: take(row) });
              }}
            >
              {taken ? "taken" : "take it"}
            </button>
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
function isTaken(row: IntentRow): boolean {
  const colour = job.value?.colour;
  if (colour?.intent !== row.intent) return false;
  return row.intent === "absolute" || colour.black_point_compensation === row.black_point_compensation;
}

function take({ intent, black_point_compensation }: IntentRow) {
  return setColour(intent === "absolute" ? { intent } : { intent, black_point_compensation });
}
