// A side fill, chosen by pictures of a corner of the canvas with each fill.
import type { Fill, Job } from "../../../contract/types";
import { PictureChoice } from "../../controls/picture_choice";
import { fillPictures, type FillPlace } from "../../state/choices/choices";
import { fillCost } from "../../state/choices/words";
import { FILLS } from "../../state/page/names";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

interface FillChoiceProps {
  readonly field: string;
  readonly label: string;
  /** All sides that have no fill of their own, or the side that has. */
  readonly where: FillPlace;
  readonly value: Fill;
  readonly set: (fill: Fill) => (job: Job) => Job;
}

export function FillChoice({ field, label, where, value, set }: FillChoiceProps) {
  const now = job.value;
  if (now === undefined) return null;
  const { quick, continued, seen, drawn: pictures } = fillPictures[where];
  const fresh = { quick: quick.fresh.value !== undefined, continued: continued.fresh.value !== undefined };
  const drawn = (fill: Fill) => {
    const found = pictures.value.find(({ option }) => option.fill === fill);
    if (found === undefined) return undefined;
    const { option } = found;
    return {
      pictures: found.pictures,
      cost: fillCost(option, now.bars.depth_mm, unit.value),
      refused: option.refused,
      stale: !(fill === "continued" ? fresh.continued : fresh.quick),
    };
  };
  return (
    <PictureChoice
      field={field}
      label={label}
      value={value}
      options={FILLS}
      set={set}
      drawn={drawn}
      failure={quick.failure.value ?? continued.failure.value}
      seen={seen}
      shows={
        where === "all"
          ? say("A corner of your canvas with each fill.")
          : say("A corner with each fill on the {where} side.", { where })
      }
      inRow={3}
    />
  );
}
