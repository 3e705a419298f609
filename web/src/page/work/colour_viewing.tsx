// How the screen shows the canvas, and what it cannot tell.
import type { Viewing } from "../../contract/types";
import { Words } from "../controls/choice";
import { viewing } from "../state/colour_view";
import { screenSentence } from "../state/colour_words";
import { type Named } from "../state/names";
import { upper } from "../state/messages";
import { screenFacts } from "../state/screen";

const VIEWINGS: readonly Named<Viewing>[] = [
  { value: "canvas", word: "White and black", meaning: "the canvas's white and black as they are under D50" },
  { value: "black", word: "Black only", meaning: "the canvas's black; its white is shown as the screen's" },
  { value: "neither", word: "Neither", meaning: "both are stretched to the screen's own" },
];

export function OnScreen() {
  const meaning = VIEWINGS.find(({ value }) => value === viewing.value)?.meaning ?? "";
  return (
    <div class="field">
      <Words
        id="viewing"
        label="Of the canvas the screen shows"
        value={viewing.value}
        options={VIEWINGS}
        choose={(chosen) => (viewing.value = chosen)}
      />
      <p class="meaning">{upper(meaning)}. A setting of this page, not of the job.</p>
      <p class="consequence" id="screen-says">
        A screen that is not calibrated cannot judge colour. {screenSentence(screenFacts.value)}
      </p>
    </div>
  );
}
