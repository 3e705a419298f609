// The rendering intent, chosen by pictures of the part of the face that printing changes most.
import type { Intent } from "../../../contract/types";
import { PictureChoice } from "../../controls/picture_choice";
import { choicesSeen, intentPicturesQuery } from "../../state/choices/choices";
import { intentCost } from "../../state/choices/words";
import { INTENTS } from "../../state/page/names";
import { setColour } from "../../state/work/edit";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function IntentChoice({ label }: { readonly label: string }) {
  const now = job.value;
  if (now === undefined) return null;
  const stale = intentPicturesQuery.fresh.value === undefined;
  const drawn = (intent: Intent) => {
    const found = intentPicturesQuery.known.value?.value.find(({ option }) => option.intent === intent);
    return found && { pictures: found.pictures, cost: intentCost(found.option), stale };
  };
  return (
    <PictureChoice
      field="colour.intent"
      label={label}
      value={now.colour.intent}
      options={INTENTS}
      set={(intent) => setColour({ intent })}
      drawn={drawn}
      failure={intentPicturesQuery.failure.value}
      seen={choicesSeen.intents}
      shows={say("The part of your picture that printing changes most, as each intent prints it.")}
      inRow={2}
    />
  );
}
