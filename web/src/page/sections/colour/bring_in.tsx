// Bringing in what lies outside: offered, never silent; with its effect in figures and on the stage.
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { AmountField } from "../../controls/amount";
import { clipped } from "../../state/colour/clip";
import { hasWithout } from "../../state/colour/look";
import { colourView, withoutBringing } from "../../state/colour/viewing";
import { broughtSentence } from "../../state/colour/words";
import { setColour } from "../../state/work/edit";
import { percentShown } from "../../../units";
import { job } from "../../state/work/work";

export function BringIn() {
  const live = useSignal<number | undefined>(undefined);
  const strength = job.value?.colour.bring_in;
  if (strength === undefined) return null;
  const reply = clipped.value?.reply;
  return (
    <div>
      <h3 class="minor">Bring in</h3>
      <p class="aside">
        Lowers the chroma of what lies outside until the canvas holds it. Hue is held, and colours inside are left
        alone. Nothing is brought in unless you ask for it.
      </p>
      <AmountField
        field="colour.bring_in"
        label="Strength"
        value={strength}
        set={(bring_in) => setColour({ bring_in })}
        live={live}
        from={0}
        to={1}
        by={0.05}
        scale={100}
        unit="%"
        shown={percentShown}
        consequence={strength === 0 ? "Nothing is brought in." : reply && broughtSentence(reply)}
      />
      {strength > 0 && <Before />}
    </div>
  );
}

/** The print without it, as long as the button is held; a click by keyboard or a screen reader goes to and fro. */
function Before() {
  useEffect(() => () => void (withoutBringing.value = false), []);
  const show = (on: boolean): void => {
    if (on && colourView.value === "filed") colourView.value = "printed";
    withoutBringing.value = on;
  };
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        id="hold-before"
        aria-pressed={withoutBringing.value}
        disabled={!hasWithout.value}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          show(true);
        }}
        onPointerUp={() => show(false)}
        onPointerCancel={() => show(false)}
        onClick={(event) => {
          // A click with no pointer before it: keys.
          if (event.detail === 0) show(!withoutBringing.value);
        }}
        onBlur={() => show(false)}
      >
        Hold to see it before
      </button>
    </div>
  );
}
