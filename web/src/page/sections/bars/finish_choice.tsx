// The corner finish, chosen by pictures of a corner of the canvas: done, and on the way.
import type { Finish } from "../../../contract/types";
import { PictureChoice } from "../../controls/picture_choice";
import { choicesSeen, finishesQuery } from "../../state/choices/choices";
import { finishCost } from "../../state/choices/words";
import { FINISHES } from "../../state/page/names";
import { unit } from "../../state/page/settings";
import { setWrap } from "../../state/work/edit";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function FinishChoice({ label }: { readonly label: string }) {
  const now = job.value;
  if (now === undefined) return null;
  const stale = finishesQuery.fresh.value === undefined;
  const drawn = (finish: Finish) => {
    const found = finishesQuery.known.value?.value.find(({ option }) => option.finish === finish);
    if (found === undefined) return undefined;
    const { option, pictures } = found;
    return { pictures, cost: finishCost(option, unit.value), refused: option.refused, stale };
  };
  return (
    <PictureChoice
      field="wrap.finish"
      label={label}
      value={now.wrap.finish}
      options={FINISHES}
      set={(finish) => setWrap({ finish })}
      drawn={drawn}
      failure={finishesQuery.failure.value}
      seen={choicesSeen.finishes}
      shows={say("Above, the corner done. Below, from behind, while it is being folded.")}
      inRow={3}
    />
  );
}
