// The parts of every field: label, entry, consequence and error; errors and notes of the core as text.
import type { ComponentChildren } from "preact";
import type { Note } from "../../contract/types";
import { inUnit } from "../../units";
import { capitalised, fieldErrors, type FieldError, fieldId } from "../state/page/fields";
import { unit } from "../state/page/settings";
import { isFixed } from "../state/work/fixed";
import { FieldLabel } from "./glossary_word";
import { say } from "../../speech/on_page";

interface LabelledFieldProps {
  readonly field: string;
  readonly label: string;
  /** The consequence of the setting, in a sentence. */
  readonly consequence?: string | undefined;
  /** A rule of thumb without a source. */
  readonly practice?: string | undefined;
  readonly children: ComponentChildren;
}

/** A labelled entry. */
export function LabelledField({ field, label, consequence, practice, children }: LabelledFieldProps) {
  return (
    <div class="field" data-field={field}>
      <label class="field-label" for={fieldId(field)}>
        <FieldLabel field={field} text={label} />
      </label>
      <div class="field-entry">{children}</div>
      <Consequence field={field} text={consequence} practice={practice} />
      <FieldErrorText field={field} />
    </div>
  );
}

interface ConsequenceProps {
  readonly field?: string;
  readonly text: string | undefined;
  readonly practice?: string | undefined;
}

export function Consequence({ field, text, practice }: ConsequenceProps) {
  if (!text) return null;
  return (
    <p class="consequence" id={field === undefined ? undefined : `${fieldId(field)}-leads`}>
      {text}
      {practice && <Practice text={practice} />}
    </p>
  );
}

/** Marks advice that has no source. */
export function Practice({ text }: { readonly text?: string }) {
  return (
    <span class="practice">
      {" "}
      {say("(common practice{words})", { words: text ? `: ${inUnit(text, unit.value)}` : "" })}
    </span>
  );
}

/** The field's error, until the field is corrected. */
export function FieldErrorText({ field }: { readonly field: string }) {
  const message = fieldErrors.value[field];
  if (message === undefined) return null;
  return <ErrorText why={message} id={`${fieldId(field)}-wrong`} alert />;
}

/** Where the unit of a field's entry stands. */
export function unitId(field: string): string {
  return `${fieldId(field)}-unit`;
}

/** The attributes that describe a field to screen readers; of one that is only shown the notice says why. */
export function describedBy(field: string): { "aria-describedby": string; "aria-invalid": boolean } {
  const wrong = field in fieldErrors.value;
  const id = fieldId(field);
  const texts = [
    ...(wrong ? [`${id}-wrong`] : []),
    unitId(field),
    `${id}-leads`,
    ...(isFixed(field) ? ["read-only"] : []),
  ];
  return { "aria-describedby": texts.join(" "), "aria-invalid": wrong };
}

interface ErrorTextProps {
  readonly why: FieldError;
  readonly id?: string;
  /** Read aloud by itself; not where a live region around it does so. */
  readonly alert?: boolean;
}

/** What is wrong, what is as it was, and the remedy. */
export function ErrorText({ why, id, alert = false }: ErrorTextProps) {
  return (
    <p class="error-text" id={id} role={alert ? "alert" : undefined}>
      {inUnit(why.message, unit.value)} {why.kept !== undefined && `${why.kept} `}
      <em>{inUnit(capitalised(why.remedy), unit.value)}.</em>
    </p>
  );
}

/** Notes one below the other. */
export function NoteLines({ notes }: { readonly notes: readonly Note[] }) {
  return (
    <>
      {notes.map((note) => (
        <p key={note.code} class="consequence">
          {inUnit(`${note.message} ${note.remedy}`, unit.value)}
        </p>
      ))}
    </>
  );
}
