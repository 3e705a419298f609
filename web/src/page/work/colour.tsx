// Sixth: which colours this canvas can hold, and what becomes of those that it cannot.
import { useEffect, useRef } from "preact/hooks";
import { Section } from "../controls/section";
import { colourSeen } from "../state/colour_view";
import { job } from "../state/work";
import { BringIn } from "./colour_bring_in";
import { WhatClips } from "./colour_clip";
import { ChooseIntent } from "./colour_intent";
import { CanvasProfile } from "./colour_profile";
import { GamutSolid } from "./colour_solid";
import { OnScreen } from "./colour_viewing";

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
