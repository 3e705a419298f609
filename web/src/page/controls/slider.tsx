// A length on a slider with its entry beside it; a drag counts as one step of undo.
import { useMemo } from "preact/hooks";
import type { Job } from "../../contract/types";
import { Gesture } from "../state/work/gesture";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { lengthShown } from "../../units";
import { useHeld } from "./pending_value";
import { LengthEntry } from "./fields";
import { Shell } from "./labelled_field";

interface LengthSliderProps {
  readonly field: string;
  readonly label: string;
  readonly value: number;
  readonly set: (mm: number) => (job: Job) => Job;
  /** The slider's ends and step in mm; the entry takes whatever the core takes. */
  readonly from: number;
  readonly to: number;
  readonly by: number;
  readonly consequence?: string | undefined;
  readonly practice?: string | undefined;
}

export function LengthSlider({ field, label, value, set, from, to, by, consequence, practice }: LengthSliderProps) {
  const gesture = useMemo(() => new Gesture(field), [field]);
  const drawn = useHeld(field);
  const shown = drawn.value ?? value;
  const share = Math.min(1, Math.max(0, (shown - from) / (to - from)));
  return (
    <Shell field={field} label={label} consequence={consequence} practice={practice}>
      <input
        type="range"
        class="slider"
        aria-label={`${label}, by slider`}
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
          drawn.hold(
            mm,
            propose({ field, label: label.toLowerCase(), change: set(mm), group: gesture.group(performance.now()) }),
          );
        }}
      />
      <LengthEntry field={field} label={label} value={value} set={set} />
    </Shell>
  );
}
