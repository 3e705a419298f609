// A number on a slider: the page draws it while the pointer moves; the job changes when the pointer is released.
import type { Signal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Job } from "../../contract/types";
import { isFixed } from "../state/work/fixed";
import { Gesture } from "../state/work/gesture";
import { parseNumber, trimmed } from "../../units";
import { propose } from "../state/work/run";
import { Entry, type Parsed } from "./entry";
import { LabelledField } from "./labelled_field";
import { say, lowered } from "../../speech/on_page";

export interface AmountProps {
  readonly field: string;
  readonly label: string;
  readonly value: number;
  readonly set: (value: number) => (job: Job) => Job;
  /** The value to draw while the pointer moves. */
  readonly live: Signal<number | undefined>;
  readonly from: number;
  readonly to: number;
  readonly by: number;
  /** An entry stands beside it, whose arrow keys do the same; then Tab passes the slider by. */
  readonly hasEntry?: boolean;
  /** With its unit, to be read aloud. */
  readonly shown: (value: number) => string;
}

/** The slider alone. */
export function AmountSlider({ field, label, value, set, live, from, to, by, shown, hasEntry }: AmountProps) {
  const gesture = useMemo(() => new Gesture(field), [field]);
  const now = live.value ?? value;
  const share = Math.min(1, Math.max(0, (now - from) / (to - from)));
  return (
    <input
      type="range"
      class="slider"
      disabled={isFixed(field)}
      tabIndex={hasEntry ? -1 : undefined}
      aria-label={say("{label}, by slider", { label })}
      aria-valuetext={shown(now)}
      min={from}
      max={to}
      step={by}
      value={now}
      style={{ "--share": share }}
      onInput={(event) => (live.value = event.currentTarget.valueAsNumber)}
      onChange={(event) => {
        const chosen = event.currentTarget.valueAsNumber;
        const change = set(chosen);
        void propose({ field, label: lowered(label), change, gesture: gesture.changeId(performance.now()) }).then(
          () => {
            if (live.value === chosen) live.value = undefined;
          },
        );
      }}
    />
  );
}

interface AmountFieldProps extends AmountProps {
  /** The job's value times this is the entry's value: 100 for a share in percent. */
  readonly scale: number;
  readonly unit: string;
  readonly consequence?: string | undefined;
}

/** The slider with its entry, which accepts every value that the core accepts. */
export function AmountField(props: AmountFieldProps) {
  const { field, label, value, set, by, scale, unit, consequence } = props;
  const gesture = useMemo(() => new Gesture(field), [field]);
  const parse = (text: string): Parsed<number> => {
    const number = parseNumber(text.replace(/%$/, "").replace(/−/g, "-"));
    return number === undefined
      ? { ok: false, expected: say("a number, for example 2.5") }
      : { ok: true, value: number / scale };
  };
  const commit = (entered: number): Promise<void> =>
    propose({ field, label: lowered(label), change: set(entered), gesture: gesture.changeId(performance.now()) });
  return (
    <LabelledField field={field} label={label} consequence={consequence}>
      <AmountSlider {...props} hasEntry />
      <Entry
        field={field}
        value={props.live.value ?? value}
        text={(number) => trimmed(number * scale, 2)}
        parse={parse}
        commit={commit}
        step={(number, steps) => Math.max(0, Math.round((number + steps * by) * 1000) / 1000)}
        unit={unit}
      />
    </LabelledField>
  );
}
