// Sixth: which colours this canvas can hold, and what becomes of those that it cannot.
import { useEffect, useRef } from "preact/hooks";
import type { Viewing } from "../../../contract/types";
import { Words } from "../../controls/choice";
import { Section } from "../../controls/section";
import { colourSeen, screenFacts, viewing } from "../../state/colour/viewing";
import { screenSentence } from "../../state/colour/words";
import { upper } from "../../state/page/fields";
import type { Named } from "../../state/page/names";
import { job } from "../../state/work/work";
import { BringIn } from "./bring_in";
import { WhatClips } from "./clip";
import { ChooseIntent } from "./intent";
import { CanvasProfile } from "./profile";
import { GamutSolid } from "./solid";

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
    <Section id="colour" number={6} title="Colour">
      <div ref={place}>
        <CanvasProfile />
        <OnScreen />
        <ChooseIntent />
        <WhatClips />
        <BringIn />
        <GamutSolid />
      </div>
    </Section>
  );
}

// How the screen shows the canvas, and what it cannot tell.

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
