// Comparing two to four options that are ticked.
import { pressable } from "../../controls/pressable";
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { KINDS, type Kind } from "../../state/compare/plan";
import { say } from "../../../speech/on_page";

interface TicksProps<T extends string | number> {
  readonly kind: Kind;
  readonly legend: string;
  readonly values: readonly T[];
  /** What is ticked at first. */
  readonly usual: readonly T[];
  readonly wordOf: (value: T) => string;
  readonly start: (values: readonly T[]) => void;
  /** Why there is nothing to compare. */
  readonly lacking?: string;
  readonly children: ComponentChildren;
}

export function Ticks<T extends string | number>(props: TicksProps<T>) {
  const { kind, legend, values, usual, wordOf, start, lacking = "", children } = props;
  const chosen = useSignal<readonly T[] | undefined>(undefined);
  const ticked = values.filter((value) => (chosen.value ?? usual).includes(value));
  const tick = (value: T, on: boolean): void => {
    chosen.value = on ? [...ticked, value] : ticked.filter((one) => one !== value);
  };
  return (
    <div class="field compare-kind">
      <fieldset class="radio-group" id={`compare-${kind}`}>
        <legend class="field-label">{legend}</legend>
        <div class="compare-ticks">
          {values.map((value) => (
            <label class="tick" key={value}>
              <input
                type="checkbox"
                checked={ticked.includes(value)}
                onChange={(event) => tick(value, event.currentTarget.checked)}
              />
              <span>{wordOf(value)}</span>
            </label>
          ))}
        </div>
      </fieldset>
      {lacking !== "" && <p class="aside">{lacking}</p>}
      <button type="button" class="button" id={`start-${kind}`} {...pressable(lacking === "", () => start(ticked))}>
        {say("Compare {many}", { many: KINDS[kind].many })}
      </button>
      {children}
    </div>
  );
}
