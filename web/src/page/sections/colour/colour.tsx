// The colour section: which colours this canvas holds, how the screen shows them, and what happens to the others.
import { useEffect, useRef } from "preact/hooks";
import type { Viewing } from "../../../contract/types";
import { RadioGroup } from "../../controls/choice";
import { colourSeen, screenFacts, viewing } from "../../state/colour/viewing";
import { screenSentence } from "../../state/colour/words";
import { capitalised } from "../../state/page/fields";
import type { DescribedOption } from "../../state/page/names";
import { job } from "../../state/work/work";
import { BringIn } from "./bring_in";
import { WhatClips } from "./clip";
import { ChooseIntent } from "./intent";
import { CanvasProfile } from "./profile";
import { GamutSolid } from "./solid";
import { say } from "../../../speech/on_page";

export function ColourSection() {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const observer = new IntersectionObserver((entries) => {
      colourSeen.value = entries.at(-1)?.isIntersecting ?? false;
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  if (job.value === undefined) return null;
  return (
    <>
      <div ref={place}>
        <CanvasProfile />
        <OnScreen />
        <ChooseIntent />
        <WhatClips />
        <BringIn />
        <GamutSolid />
      </div>
    </>
  );
}

const VIEWINGS: readonly DescribedOption<Viewing>[] = [
  {
    value: "canvas",
    word: say("Canvas white and black"),
    meaning: say("the canvas's white and black as they are under D50"),
  },
  {
    value: "black",
    word: say("Canvas black"),
    meaning: say("the canvas's black; its white is shown as the screen's white"),
  },
  {
    value: "neither",
    word: say("Fitted to the screen"),
    meaning: say("black and white are stretched to those of the screen"),
  },
];

function OnScreen() {
  const meaning = VIEWINGS.find(({ value }) => value === viewing.value)?.meaning ?? "";
  return (
    <div class="field">
      <RadioGroup
        id="viewing"
        label={say("On the screen")}
        value={viewing.value}
        options={VIEWINGS}
        choose={(chosen) => (viewing.value = chosen)}
      />
      <p class="meaning">
        {say("{meaning}. This is a setting of the page, not of the job.", { meaning: capitalised(meaning) })}
      </p>
      <p class="consequence" id="screen-says">
        {say("A screen that is not calibrated cannot judge colour. {screenSentence}", {
          screenSentence: screenSentence(screenFacts.value),
        })}
      </p>
    </div>
  );
}
