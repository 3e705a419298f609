// A caption beside the canvas: which colour view is shown, and for which canvas.
import { useEffect, useRef } from "preact/hooks";
import { toggleHighlight, highlighted } from "../state/colour/clip";
import { lookQuery, look } from "../state/colour/look";
import { compared } from "../state/compare/comparison";
import { profileReplies } from "../state/colour/profiles";
import { colourView, showsUnadjusted } from "../state/colour/viewing";
import { ILLUSTRATION } from "../state/colour/words";
import { errorSentence } from "../state/page/fields";
import { scaleHighPx } from "../state/page/view";
import { job, lacksPicture } from "../state/work/work";
import { ClipScale } from "./clip_scale";
import { say } from "../../speech/on_page";

/** Over the wall where there is room beside the canvas; else among the stage's controls. */
export function ColourCaption({ place }: { readonly place: "wall" | "controls" }) {
  const host = useRef<HTMLDivElement>(null);
  const isSeen = colourView.value !== "filed" && !lacksPicture.value;
  const isScale = isSeen && colourView.value === "clip" && place === "wall";
  useEffect(() => (isScale ? keepClearOf(host.current) : undefined), [isScale]);
  if (!isSeen) return null;
  return (
    <div class={`colour-caption colour-caption-${place}`} id="colour-caption" ref={host}>
      <Proof />
    </div>
  );
}

/** The canvas ends above the scale where that lies over the wall: unfolded it would reach below. */
function keepClearOf(scale: HTMLElement | null): (() => void) | undefined {
  if (scale === null) return undefined;
  const watch = new ResizeObserver(() => {
    const { position, marginBlockEnd } = getComputedStyle(scale);
    scaleHighPx.value = position === "absolute" ? scale.offsetHeight + Number.parseFloat(marginBlockEnd) : 0;
  });
  watch.observe(scale);
  return () => {
    watch.disconnect();
    scaleHighPx.value = 0;
  };
}

/** The hue group that is highlighted, with a button that ends it. */
export function HighlightCaption() {
  const group = highlighted.value;
  if (group === undefined) return null;
  return (
    <p class="highlight-caption" id="colour-lit">
      {say("Shown: where {group} is out of gamut.", { group: group.name })}{" "}
      <button type="button" class="link" onClick={() => toggleHighlight(undefined)}>
        {say("End")}
      </button>
    </p>
  );
}

function Proof() {
  const why = lookQuery.failure.value;
  const now = look.value;
  if (why !== undefined) {
    return (
      <p>{say("This is the original: there is no proof. {errorSentence}", { errorSentence: errorSentence(why) })}</p>
    );
  }
  if (now === undefined) return <p>{say("This is the original until the proof is ready.")}</p>;
  return (
    <>
      {colourView.value === "clip" ? <ClipScale look={now} /> : <OnWhich />}
      {colourView.value === "clip" && <Illustration />}
    </>
  );
}

function OnWhich() {
  if (compared.value?.plan.kind === "profile") return <p>{say("As printed, each on its own canvas.")}</p>;
  const name = job.value?.colour.profile ?? "";
  const profile = profileReplies.value[name];
  const [before, anew] = [showsUnadjusted.value, lookQuery.pending.value];
  return (
    <>
      <p>
        {say("As printed{words}", { words: profile?.illustration === true ? "" : say(" on ") })}
        {profile?.illustration !== true && <strong>{profile?.description ?? name}</strong>}
        {before && say(", without bringing in")}
        {anew && say("; being worked out again")}.
      </p>
      <Illustration />
    </>
  );
}

function Illustration() {
  const profile = profileReplies.value[job.value?.colour.profile ?? ""];
  return profile?.illustration === true ? <p class="caption-illustration">{ILLUSTRATION}</p> : null;
}
