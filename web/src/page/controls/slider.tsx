// A length on a slider with an entry beside it. Undo takes a whole drag back in one step.
import { useMemo } from "preact/hooks";
import type { Job } from "../../contract/types";
import { isFixed } from "../state/work/fixed";
import { Gesture } from "../state/work/gesture";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { lengthShown } from "../../units";
import { usePendingValue } from "./pending_value";
import { LengthEntry } from "./fields";
import { LabelledField } from "./labelled_field";
import { say, lowered } from "../../speech/on_page";

interface LengthSliderProps {
  readonly field: string;
  readonly label: string;
  readonly value: number;
  readonly set: (mm: number) => (job: Job) => Job;
  /** The slider's ends and step in mm; the entry accepts every value that the core accepts. */
  readonly from: number;
  readonly to: number;
  readonly by: number;
  readonly consequence?: string | undefined;
  readonly practice?: string | undefined;
}

export function LengthSlider({ field, label, value, set, from, to, by, consequence, practice }: LengthSliderProps) {
  const gesture = useMemo(() => new Gesture(field), [field]);
  const drawn = usePendingValue();
  const shown = drawn.value ?? value;
  const share = Math.min(1, Math.max(0, (shown - from) / (to - from)));
  return (
    <LabelledField field={field} label={label} consequence={consequence} practice={practice}>
      <input
        type="range"
        class="slider"
        disabled={isFixed(field)}
        // Keys reach the entry, whose arrow keys do the same.
        tabIndex={-1}
        aria-label={say("{label}, by slider", { label })}
        aria-valuetext={lengthShown(shown, unit.value)}
        min={from}
        max={to}
        step={by}
        value={shown}
        style={{ "--share": share }}
        onPointerDown={() => gesture.press()}
        onPointerUp={() => gesture.release()}
        onPointerCancel={() => gesture.release()}
        onInput={(event) => {
          const mm = event.currentTarget.valueAsNumber;
          drawn.showUntil(
            mm,
            propose({
              field,
              label: lowered(label),
              change: set(mm),
              gesture: gesture.changeId(performance.now()),
            }),
          );
        }}
      />
      <LengthEntry field={field} label={label} value={value} set={set} />
    </LabelledField>
  );
}
