// Entries for lengths, plain numbers and text, each with its label and consequence.
import type { Job } from "../../contract/types";
import { Gesture } from "../state/work/gesture";
import { useMemo } from "preact/hooks";
import { propose } from "../state/work/run";
import { unit } from "../state/page/settings";
import { lengthStep, lengthText, parseLength, parseNumber, trimmed } from "../../units";
import { Entry, type Parsed } from "./entry";
import { LabelledField } from "./labelled_field";
import { say, lowered } from "../../speech/on_page";

interface FieldProps<T> {
  readonly field: string;
  readonly label: string;
  readonly value: T;
  readonly set: (value: T) => (job: Job) => Job;
  readonly consequence?: string | undefined;
  readonly practice?: string | undefined;
}

/** Offers a change, the arrow keys' as one step. */
function useOffer<T>(field: string, label: string, set: FieldProps<T>["set"]) {
  const gesture = useMemo(() => new Gesture(field), [field]);
  return (value: T): Promise<void> =>
    propose({
      field,
      label: lowered(label),
      change: set(value),
      gesture: gesture.changeId(performance.now()),
    });
}

/** A length: in mm inside, typed in any unit. */
export function LengthField(props: FieldProps<number>) {
  const { field, label, value, set, consequence, practice } = props;
  return (
    <LabelledField field={field} label={label} consequence={consequence} practice={practice}>
      <LengthEntry field={field} label={label} value={value} set={set} />
    </LabelledField>
  );
}

export function LengthEntry({ field, label, value, set }: FieldProps<number>) {
  const now = unit.value;
  const offer = useOffer(field, label, set);
  const parse = (text: string): Parsed<number> => {
    const parsed = parseLength(text, now);
    return parsed.ok ? { ok: true, value: parsed.mm } : parsed;
  };
  return (
    <Entry
      field={field}
      value={value}
      text={(mm) => lengthText(mm, now)}
      parse={parse}
      commit={offer}
      step={(mm, steps) => Math.max(0, mm + steps * lengthStep(now))}
      unit={now === "mm" ? "mm" : "in"}
    />
  );
}

/** A plain number with its unit behind it. */
export function NumberField(props: FieldProps<number> & { readonly unit: string; readonly by: number }) {
  const { field, label, value, set, consequence, practice, unit: unitWord, by } = props;
  const offer = useOffer(field, label, set);
  const parse = (text: string): Parsed<number> => {
    const number = parseNumber(text.replace(/−/g, "-"));
    return number === undefined
      ? { ok: false, expected: say("a number, for example 1.5") }
      : { ok: true, value: number };
  };
  return (
    <LabelledField field={field} label={label} consequence={consequence} practice={practice}>
      <Entry
        field={field}
        value={value}
        text={(number) => trimmed(number, 3)}
        parse={parse}
        commit={offer}
        step={(number, steps) => Math.round((number + steps * by) * 1000) / 1000}
        unit={unitWord}
      />
    </LabelledField>
  );
}

/** A line of text. */
export function TextField(props: FieldProps<string>) {
  const { field, label, value, set, consequence } = props;
  const offer = useOffer(field, label, set);
  return (
    <LabelledField field={field} label={label} consequence={consequence}>
      <Entry
        field={field}
        value={value}
        text={(text) => text}
        parse={(text) => ({ ok: true, value: text })}
        commit={offer}
        wide
      />
    </LabelledField>
  );
}
