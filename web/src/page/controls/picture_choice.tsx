// A choice among options that are shown as small pictures of one's own canvas, each with its consequence and cost.
import type { Signal } from "@preact/signals";
import type { Job, Refused } from "../../contract/types";
import { drawAgain } from "../state/choices/choices";
import { capitalised, fieldErrors, type FieldError, fieldId } from "../state/page/fields";
import type { DescribedOption } from "../state/page/names";
import { unit } from "../state/page/settings";
import { isFixed } from "../state/work/fixed";
import { propose } from "../state/work/run";
import { lacksPicture } from "../state/work/work";
import { inUnit } from "../../units";
import { Consequence, ErrorText, FieldErrorText } from "./labelled_field";
import { SmallPicture, useSeen } from "./small_picture";
import { say, lowered } from "../../speech/on_page";

/** What is known of an option. */
export interface PicturedOption {
  /** None where the canvas cannot have the option. */
  readonly pictures: readonly ImageData[];
  readonly cost: string;
  readonly refused?: Refused | undefined;
  /** The job has changed since it was drawn. */
  readonly stale: boolean;
}

interface PictureChoiceProps<T extends string> {
  readonly field: string;
  readonly label: string;
  readonly value: T;
  readonly options: readonly DescribedOption<T>[];
  readonly set: (value: T) => (job: Job) => Job;
  /** What is known of an option; undefined until it has been drawn. */
  readonly drawn: (value: T) => PicturedOption | undefined;
  /** Why the pictures could not be drawn. */
  readonly failure: FieldError | undefined;
  /** Whether the choice is on the screen, written here. */
  readonly seen: Signal<boolean>;
  /** What the pictures show. */
  readonly shows: string;
  /** How many options stand in a row, where there is room. */
  readonly inRow: 2 | 3;
}

const OUTDATED = say("The pale pictures show the canvas before its last change.");
const LACKING = say("The picture of this job is not open, so there is nothing to draw. The choice works without it.");

/** A choice by eye that changes the job. */
export function PictureChoice<T extends string>(props: PictureChoiceProps<T>) {
  const { field, label, value, options, set, drawn, failure, seen, shows, inRow } = props;
  const refused = field in fieldErrors.value;
  const id = fieldId(field);
  const place = useSeen(seen);
  const lacking = lacksPicture.value;
  // What was drawn of another picture is not this job's.
  const known = (option: T) => (lacking ? undefined : drawn(option));
  const isStale = options.some((option) => known(option.value)?.stale === true);
  return (
    <div class="field" data-field={field} data-refused={refused} ref={place}>
      <fieldset class="picture-choice" id={id} disabled={isFixed(field)}>
        <legend class="field-label">{label}</legend>
        <div class="picture-options" data-in-row={inRow}>
          {options.map((option) => (
            <OneOption
              key={option.value}
              id={`${id}-${option.value}`}
              group={id}
              option={option}
              known={known(option.value)}
              checked={option.value === value}
              undrawn={lacking ? "lacking" : failure === undefined ? "waiting" : "failed"}
              choose={() => void propose({ field, label: lowered(label), change: set(option.value) })}
            />
          ))}
        </div>
      </fieldset>
      <p class="aside">{lacking ? LACKING : isStale ? OUTDATED : shows}</p>
      {failure && !lacking && (
        <div class="picture-failure" role="alert">
          <Consequence text={say("The pictures could not be drawn; the choice works without them.")} />
          <ErrorText why={failure} />
          <button type="button" class="link" onClick={drawAgain}>
            {say("Draw them again")}
          </button>
        </div>
      )}
      <FieldErrorText field={field} />
    </div>
  );
}

interface OneOptionProps<T extends string> {
  readonly id: string;
  readonly group: string;
  readonly option: DescribedOption<T>;
  readonly known: PicturedOption | undefined;
  readonly checked: boolean;
  /** The state of an option that has no picture. */
  readonly undrawn: "waiting" | "failed" | "lacking";
  readonly choose: () => void;
}

/** An option is named by its word and described by its meaning and cost; its pictures say nothing besides. */
function OneOption<T extends string>({ id, group, option, known, checked, undrawn, choose }: OneOptionProps<T>) {
  const { word, meaning, value } = option;
  const state = known === undefined ? undrawn : known.stale ? "stale" : "drawn";
  return (
    <label class="picture-option" data-state={state} data-option={value}>
      <input
        type="radio"
        name={group}
        value={value}
        checked={checked}
        aria-labelledby={`${id}-word`}
        aria-describedby={`${id}-says`}
        onChange={choose}
      />
      <span class="picture-place" aria-hidden="true">
        {known === undefined ? (
          <span class="picture-wait">{undrawn === "waiting" ? say("Drawing …") : say("No picture")}</span>
        ) : known.refused ? (
          <span class="picture-wait">{say("Not with this canvas")}</span>
        ) : (
          known.pictures.map((picture, number) => <SmallPicture key={number} image={picture} />)
        )}
      </span>
      <span class="picture-word" id={`${id}-word`}>
        {word}
      </span>
      <span class="picture-says" id={`${id}-says`}>
        {capitalised(meaning)}.{" "}
        {known?.refused ? (
          <em>
            {inUnit(known.refused.message, unit.value)} {inUnit(capitalised(known.refused.remedy), unit.value)}.
          </em>
        ) : (
          <span class="picture-cost">{known?.cost}</span>
        )}
      </span>
    </label>
  );
}
