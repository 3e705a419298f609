// The fill of all sides, chosen by pictures of a corner of the canvas with each fill.
import type { Fill } from "../../../contract/types";
import { PictureChoice } from "../../controls/picture_choice";
import { choicesSeen, continuedQuery, drawnFills, fillsQuery } from "../../state/choices/choices";
import { fillCost } from "../../state/choices/words";
import { FILLS } from "../../state/page/names";
import { unit } from "../../state/page/settings";
import { setSides } from "../../state/work/edit";
import { job } from "../../state/work/work";

export function FillChoice({ label }: { readonly label: string }) {
  const now = job.value;
  if (now === undefined) return null;
  const fresh = { quick: fillsQuery.fresh.value !== undefined, continued: continuedQuery.fresh.value !== undefined };
  const drawn = (fill: Fill) => {
    const found = drawnFills.value.find(({ option }) => option.fill === fill);
    if (found === undefined) return undefined;
    const { option, pictures } = found;
    return {
      pictures,
      cost: fillCost(option, now.bars.depth_mm, unit.value),
      refused: option.refused,
      stale: !(fill === "continued" ? fresh.continued : fresh.quick),
    };
  };
  return (
    <PictureChoice
      field="sides.fill"
      label={label}
      value={now.sides.fill}
      options={FILLS}
      set={(fill) => setSides({ fill })}
      drawn={drawn}
      failure={fillsQuery.failure.value ?? continuedQuery.failure.value}
      seen={choicesSeen.fills}
      shows="A corner of your canvas with each fill."
      inRow={3}
    />
  );
}
