// The canvas's gamut as a solid with the picture's colours in it, and a sentence about it.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Solid } from "../../../solid/types";
import { solidQuery, requestSolid } from "../../state/colour/on_request";
import { threshold } from "../../state/colour/viewing";
import { profileReplies } from "../../state/colour/profiles";
import { FIGURES_LACKING, ILLUSTRATION, solidSentence, volumeShown } from "../../state/colour/words";
import { reducedMotion, theme } from "../../state/page/settings";
import { job, lacksPicture, work } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function GamutSolid() {
  const open = useSignal(false);
  return (
    <details class="more" onToggle={(event) => (open.value = event.currentTarget.open)}>
      <summary>{say("The canvas's gamut as a solid")}</summary>
      <div class="more-inside">{open.value && <Inside />}</div>
    </details>
  );
}

function Inside() {
  const now = work.value;
  useEffect(requestSolid, [now]);
  const gamut = solidQuery.known.value?.value;
  const profile = profileReplies.value[job.value?.colour.profile ?? ""];
  if (lacksPicture.value) return <p class="consequence">{FIGURES_LACKING}</p>;
  if (solidQuery.failure.value) return <p class="consequence">{say("There is no solid without a profile.")}</p>;
  if (gamut === undefined) return <p class="consequence">{say("The solid is being worked out.")}</p>;
  return (
    <>
      <Drawing />
      <p class="consequence" id="solid-says">
        {say("{solidSentence} The solid holds {volumeShown}.", {
          solidSentence: solidSentence(gamut.points, threshold.value),
          volumeShown: volumeShown(gamut.volume),
        })}
      </p>
      <p class="aside">
        {say(
          "CIELAB relative to the canvas's white. Dots are colours in gamut; diamonds are out of gamut, each with a line to where it prints. {illustration}",
          { illustration: profile?.illustration === true ? ILLUSTRATION : "" },
        )}
      </p>
    </>
  );
}

/** The page loads three for the solid only when this is opened. */
function Drawing() {
  const host = useRef<HTMLDivElement>(null);
  const solid = useSignal<Solid | "none" | undefined>(undefined);
  useEffect(() => {
    let ended = false;
    let made: Solid | undefined;
    void Promise.all([import("../../../solid/solid"), import("../../../stage/stage")]).then(
      ([{ createSolid }, { StageUnavailable }]) => {
        if (ended || host.current === null) return;
        try {
          solid.value = made = createSolid(host.current, { reducedMotion: reducedMotion.peek() });
        } catch (failure) {
          if (!(failure instanceof StageUnavailable)) throw failure;
          solid.value = "none";
        }
      },
    );
    return () => {
      ended = true;
      made?.dispose();
    };
  }, [solid]);
  const drawn = solid.value;
  const gamut = solidQuery.known.value?.value;
  const [seen, from] = [theme.value, threshold.value];
  useEffect(() => {
    if (drawn === undefined || drawn === "none" || gamut === undefined) return;
    drawn.setSolid(gamut.mesh);
    drawn.setPoints(gamut.points);
  }, [drawn, gamut]);
  useEffect(() => {
    if (drawn === undefined || drawn === "none") return;
    drawn.setTheme(seen);
    drawn.setThreshold(from);
  }, [drawn, seen, from]);
  if (drawn === "none") return <p class="consequence">{say("This browser cannot draw it: WebGL 2 is missing.")}</p>;
  return <div class="solid" ref={host} />;
}
