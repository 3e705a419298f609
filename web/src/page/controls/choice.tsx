// A choice among a few options.
import type { Job } from "../../contract/types";
import { fieldId, fieldErrors, capitalised } from "../state/page/fields";
import type { DescribedOption, Option } from "../state/page/names";
import { isFixed } from "../state/work/fixed";
import { propose } from "../state/work/run";
import { FieldLabel } from "./glossary_word";
import { Consequence, FieldErrorText } from "./labelled_field";
import { lowered } from "../../speech/on_page";

interface ChoiceProps<T extends string> {
  readonly field: string;
  readonly label: string;
  readonly value: T;
  readonly options: readonly DescribedOption<T>[];
  readonly set: (value: T) => (job: Job) => Job;
  readonly consequence?: string | undefined;
  readonly practice?: string | undefined;
}

/** A choice that changes the job. */
export function Choice<T extends string>({ field, label, value, options, set, consequence, practice }: ChoiceProps<T>) {
  // A refused choice is drawn again, so that it shows the value that holds.
  const refused = field in fieldErrors.value;
  const meaning = options.find((option) => option.value === value)?.meaning;
  return (
    <div class="field" data-field={field} data-refused={refused}>
      <RadioGroup
        id={fieldId(field)}
        label={label}
        field={field}
        value={value}
        options={options}
        choose={(chosen) => void propose({ field, label: lowered(label), change: set(chosen) })}
      />
      {meaning && <p class="meaning">{capitalised(meaning)}.</p>}
      <Consequence text={consequence} practice={practice} />
      <FieldErrorText field={field} />
    </div>
  );
}

interface RadioGroupProps<T extends string> {
  readonly id: string;
  readonly label: string;
  /** Of the job; the label leads to the glossary where that has the field's word. */
  readonly field?: string;
  readonly value: T | undefined;
  readonly options: readonly Option<T>[];
  readonly choose: (value: T) => void;
  readonly quiet?: boolean;
}

/** Radio buttons in a row. */
export function RadioGroup<T extends string>(props: RadioGroupProps<T>) {
  const { id, label, field = "", value, options, choose, quiet = false } = props;
  return (
    <fieldset class="radio-group" id={id}>
      <legend class={quiet ? "visually-hidden" : "field-label"}>
        <FieldLabel field={field} text={label} />
      </legend>
      <div class="radio-row">
        {options.map((option) => (
          <label class="radio" key={option.value}>
            <input
              type="radio"
              name={id}
              disabled={isFixed(field)}
              value={option.value}
              checked={option.value === value}
              onChange={() => choose(option.value)}
            />
            <span>{option.word}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
