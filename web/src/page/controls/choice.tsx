// One of a few words.
import type { Job } from "../../contract/types";
import { fieldId, messages, upper } from "../state/page/fields";
import type { Named, Word } from "../state/page/names";
import { propose } from "../state/work/run";
import { Consequence, Message } from "./labelled_field";

interface ChoiceProps<T extends string> {
  readonly field: string;
  readonly label: string;
  readonly value: T;
  readonly options: readonly Named<T>[];
  readonly set: (value: T) => (job: Job) => Job;
  readonly consequence?: string | undefined;
  readonly practice?: string | undefined;
}

/** A choice that changes the job. */
export function Choice<T extends string>({ field, label, value, options, set, consequence, practice }: ChoiceProps<T>) {
  // A refused choice is drawn anew, so that the words say again what holds.
  const refused = field in messages.value;
  const meaning = options.find((option) => option.value === value)?.meaning;
  return (
    <div class="field" data-field={field} data-refused={refused}>
      <Words
        id={fieldId(field)}
        label={label}
        value={value}
        options={options}
        choose={(chosen) => propose({ field, label: label.toLowerCase(), change: set(chosen) })}
      />
      {meaning && <p class="meaning">{upper(meaning)}.</p>}
      <Consequence text={consequence} practice={practice} />
      <Message field={field} />
    </div>
  );
}

interface WordsProps<T extends string> {
  readonly id: string;
  readonly label: string;
  readonly value: T | undefined;
  readonly options: readonly Word<T>[];
  readonly choose: (value: T) => void;
  readonly quiet?: boolean;
}

/** The words themselves: radio buttons in a group. */
export function Words<T extends string>({ id, label, value, options, choose, quiet = false }: WordsProps<T>) {
  return (
    <fieldset class="words" id={id}>
      <legend class={quiet ? "unseen" : "field-label"}>{label}</legend>
      <div class="words-row">
        {options.map((option) => (
          <label class="word" key={option.value}>
            <input
              type="radio"
              name={id}
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
