// A table of the variants' figures, for small walls and for screen readers.
import { JobControls } from "../../controls/job_controls";
import type { VariantReply } from "../../../contract/types";
import { choices, compared, endComparison, keepChoice, outdated } from "../../state/compare/comparison";
import type { Choice } from "../../state/compare/plan";
import { figuresOf } from "../../state/compare/figures";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

export function CompareTable() {
  const now = compared.value;
  const first = now?.variants[0];
  if (now === undefined || first === undefined) return null;
  const heads = figuresOf(first, unit.value, now.variants);
  return (
    <div class="compare-figures" id="compare-figures" data-outdated={outdated.value}>
      <table class="figures">
        <caption class="visually-hidden">{say("The variants side by side")}</caption>
        <thead>
          <tr>
            {heads.map(({ name, head }) => (
              <th key={name} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        {now.variants.map((variant, place) => {
          const choice = choices.value[place];
          return choice && <OneVariant key={choice.label} variant={variant} choice={choice} columns={heads.length} />;
        })}
      </table>
      <p class="aside">
        {say(
          "Fits: the sheet or roll holds the canvas. Out of gamut: the share of face and sides that is off by more than the threshold. The whole piece has its bars and fittings.",
        )}
      </p>
      <button type="button" class="button" onClick={endComparison}>
        {say("End the comparison")}
      </button>
    </div>
  );
}

interface OneVariantProps {
  readonly variant: VariantReply;
  readonly choice: Choice;
  readonly columns: number;
}

function OneVariant({ variant, choice, columns }: OneVariantProps) {
  return (
    <tbody>
      <tr class="figures-name">
        <th scope="rowgroup" colSpan={columns}>
          <span class="figures-line">
            <span>{choice.label}</span>
            <JobControls>
              <button
                type="button"
                class="link"
                aria-label={say("Keep this one: {label}", { label: choice.label })}
                onClick={() => void keepChoice(choice)}
              >
                {say("Keep this one")}
              </button>
            </JobControls>
          </span>
        </th>
      </tr>
      <tr>
        {figuresOf(variant, unit.value, compared.value?.variants ?? []).map(({ name, text }) => (
          <td key={name} data-figure={name}>
            {text}
          </td>
        ))}
      </tr>
    </tbody>
  );
}
