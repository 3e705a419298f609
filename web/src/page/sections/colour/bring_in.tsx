// Bringing colours into the gamut: the amount, its effect in figures, and the print before it.
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { AmountField } from "../../controls/amount";
import { clipQuery, clipped } from "../../state/colour/clip";
import { hasUnadjustedLook } from "../../state/colour/look";
import { colourView, showsUnadjusted } from "../../state/colour/viewing";
import { broughtSentence } from "../../state/colour/words";
import { setColour } from "../../state/work/edit";
import { percentShown } from "../../../units";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function BringIn() {
  const live = useSignal<number | undefined>(undefined);
  const strength = job.value?.colour.bring_in;
  if (strength === undefined) return null;
  const reply = clipped.value?.reply;
  return (
    <div class="clip-figures" data-pending={strength > 0 && clipQuery.pending.value}>
      <h3 class="minor">{say("Bring colours in")}</h3>
      <p class="aside">
        {say(
          "Lowers the chroma of colours out of gamut until the canvas holds them. Vivid colours become darker or lighter where they keep more chroma so. Their hue stays, and colours in gamut stay as they are. Nothing is brought in unless you ask for it.",
        )}
      </p>
      <AmountField
        field="colour.bring_in"
        label={say("Amount")}
        value={strength}
        set={(bring_in) => setColour({ bring_in })}
        live={live}
        from={0}
        to={1}
        by={0.05}
        scale={100}
        unit="%"
        shown={percentShown}
        consequence={strength === 0 ? say("Nothing is brought in.") : reply && broughtSentence(reply)}
      />
      {strength > 0 && <Before />}
    </div>
  );
}

/** Shows the print before bringing in while the button is pressed; a click by keyboard or screen reader toggles it. */
function Before() {
  useEffect(() => () => void (showsUnadjusted.value = false), []);
  const show = (on: boolean): void => {
    if (on && colourView.value === "filed") colourView.value = "printed";
    showsUnadjusted.value = on;
  };
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        id="hold-before"
        aria-pressed={showsUnadjusted.value}
        disabled={!hasUnadjustedLook.value}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          show(true);
        }}
        onPointerUp={() => show(false)}
        onPointerCancel={() => show(false)}
        onClick={(event) => {
          // A click with no pointer before it: keys.
          if (event.detail === 0) show(!showsUnadjusted.value);
        }}
        onBlur={() => show(false)}
      >
        {say("Hold to see it without")}
      </button>
    </div>
  );
}
