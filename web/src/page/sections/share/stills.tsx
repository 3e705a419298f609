// Stills: PNG pictures of the wall from a view, at any size, with a scale drawn in.
import { pressable } from "../../controls/pressable";
import type { Signal } from "@preact/signals";
import { RadioGroup } from "../../controls/choice";
import { Entry, type Parsed } from "../../controls/entry";
import { LabelledField } from "../../controls/labelled_field";
import { clearFieldErrors } from "../../state/page/fields";
import { sizeWrong, STILL_VIEWS } from "../../state/output/still_choice";
import {
  saveStills,
  type Saving,
  saving,
  stillHeight,
  stillScale,
  stillView,
  stillWidth,
} from "../../state/output/stills";
import { mountedStage, wallState } from "../../state/page/view";
import { parseNumber } from "../../../units";
import { say } from "../../../speech/on_page";

export function Stills() {
  const now = saving.value;
  const there = mountedStage.value !== undefined && wallState.value === "drawn";
  return (
    <div class="part" id="stills">
      <h3 class="minor">{say("Stills")}</h3>
      <div class="field">
        <RadioGroup
          id="still-view"
          label={say("From")}
          value={stillView.value}
          options={STILL_VIEWS}
          choose={(chosen) => (stillView.value = chosen)}
        />
      </div>
      <PixelField field="stills.width" label={say("Still width")} of={stillWidth} other={stillHeight} />
      <PixelField field="stills.height" label={say("Still height")} of={stillHeight} other={stillWidth} />
      <div class="field">
        <label class="tick">
          <input
            type="checkbox"
            id="still-scale"
            checked={stillScale.value}
            onChange={(event) => (stillScale.value = event.currentTarget.checked)}
          />
          <span>{say("Draw a scale and the size of the face")}</span>
        </label>
        <p class="meaning">
          {say(
            "It is measured in the plane of the face. From an angle, the scale holds across the middle of the face, and says so.",
          )}
        </p>
      </div>
      <button
        type="button"
        class="button"
        id="save-stills"
        {...pressable(there && now.state !== "saving", () => void saveStills())}
      >
        {stillView.value === "all" ? say("Save five stills") : say("Save the still")}
      </button>
      {!there && <p class="consequence">{say("Stills need the 3D view, which is not running.")}</p>}
      <div aria-live="polite">
        <Outcome now={now} />
      </div>
    </div>
  );
}

interface PixelFieldProps {
  readonly field: string;
  readonly label: string;
  readonly of: Signal<number>;
  readonly other: Signal<number>;
}

/** One side of the still, in pixels. */
function PixelField({ field, label, of, other }: PixelFieldProps) {
  const parse = (text: string): Parsed<number> => {
    const px = parseNumber(text) ?? Number.NaN;
    const expected = sizeWrong(px, other.value);
    return expected === undefined ? { ok: true, value: px } : { ok: false, expected };
  };
  const commit = (px: number): void => {
    if (sizeWrong(px, other.value) !== undefined) return;
    clearFieldErrors(field);
    of.value = px;
  };
  return (
    <LabelledField field={field} label={label}>
      <Entry
        field={field}
        value={of.value}
        text={String}
        parse={parse}
        commit={commit}
        step={(px, steps) => px + steps * 100}
        unit="px"
      />
    </LabelledField>
  );
}

function Outcome({ now }: { readonly now: Saving }) {
  switch (now.state) {
    case "idle":
      return null;
    case "saving":
      return <p class="consequence">{now.label}</p>;
    case "failed":
      return <p class="error-text">{say("No still was saved: {now}.", { now: now.text })}</p>;
    case "saved":
      return <p class="consequence">{say("Saved: {files}", { files: now.files.join(", ") })}</p>;
  }
}
