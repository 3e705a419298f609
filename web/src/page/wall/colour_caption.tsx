// A label beside the canvas, as in a gallery: what of its colours is seen, and on which canvas.
import { lightUp, lit } from "../state/colour/clip";
import { asked, look } from "../state/colour/look";
import { compared } from "../state/compare/comparison";
import { described } from "../state/colour/profiles";
import { colourView, withoutBringing } from "../state/colour/viewing";
import { ILLUSTRATION } from "../state/colour/words";
import { upper } from "../state/page/fields";
import { job } from "../state/work/work";
import { ClipScale } from "./clip_scale";

/** Over the wall, where it covers no canvas; on the ledge under the sheet, which takes all the room. */
export function ColourCaption({ place }: { readonly place: "wall" | "ledge" }) {
  if (colourView.value === "filed") return null;
  return (
    <div class={`colour-caption colour-caption-${place}`} id="colour-caption">
      <Proof />
    </div>
  );
}

/** The group that is lit up, and a way to put it out. */
export function LitCaption() {
  const group = lit.value;
  if (group === undefined) return null;
  return (
    <p class="colour-lit" id="colour-lit">
      Lit up: {group.name}.{" "}
      <button type="button" class="link" onClick={() => lightUp(undefined)}>
        Put it out
      </button>
    </p>
  );
}

function Proof() {
  const why = asked.failure.value;
  const now = look.value;
  if (why !== undefined) {
    return (
      <p>
        As filed: there is no proof with {why.got}. {upper(why.remedy)}.
      </p>
    );
  }
  if (now === undefined) return <p>As filed, until the proof is worked out.</p>;
  return (
    <>
      {colourView.value === "clip" ? <ClipScale look={now} /> : <OnWhich />}
      {colourView.value === "clip" && <Illustration />}
    </>
  );
}

function OnWhich() {
  if (compared.value?.plan.kind === "profile") return <p>As printed, each on its own canvas.</p>;
  const name = job.value?.colour.profile ?? "";
  const profile = described.value[name];
  const [before, anew] = [withoutBringing.value, asked.pending.value];
  return (
    <>
      <p>
        As printed{profile?.illustration === true ? "" : " on "}
        {profile?.illustration !== true && <strong>{profile?.description ?? name}</strong>}
        {before && ", before bringing in"}
        {anew && "; being worked out anew"}.
      </p>
      <Illustration />
    </>
  );
}

function Illustration() {
  const profile = described.value[job.value?.colour.profile ?? ""];
  return profile?.illustration === true ? <p class="caption-illustration">{ILLUSTRATION}</p> : null;
}
