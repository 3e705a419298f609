// What every field has: a label, the entry, what it leads to, and what was wrong with what was typed.
import type { ComponentChildren } from "preact";
import type { Note } from "../../contract/types";
import { fieldId, type FieldMessage, messages, upper } from "../state/page/fields";
import { fieldName } from "../state/page/names";

interface ShellProps {
  readonly field: string;
  readonly label: string;
  /** What the setting leads to. */
  readonly consequence?: string | undefined;
  /** A rule of thumb without a source. */
  readonly practice?: string | undefined;
  readonly children: ComponentChildren;
}

/** A labelled entry. */
export function Shell({ field, label, consequence, practice, children }: ShellProps) {
  return (
    <div class="field" data-field={field}>
      <label class="field-label" for={fieldId(field)}>
        {label}
      </label>
      <div class="field-entry">{children}</div>
      <Consequence field={field} text={consequence} practice={practice} />
      <Message field={field} />
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
  return <span class="practice"> (common practice{text ? `: ${text}` : ""})</span>;
}

/** Expected, got, remedy; beside the field until it is mended. */
export function Message({ field }: { readonly field: string }) {
  const message = messages.value[field];
  if (message === undefined) return null;
  return <Refusal why={message} beside={field} id={`${fieldId(field)}-wrong`} alert />;
}

/** What describes a field to those who hear the page. */
export function describedBy(field: string): { "aria-describedby": string; "aria-invalid": boolean } {
  const wrong = field in messages.value;
  const id = fieldId(field);
  return { "aria-describedby": wrong ? `${id}-wrong ${id}-leads` : `${id}-leads`, "aria-invalid": wrong };
}

// What the core has said: why it has refused something, and its notes on what came of the rest.

interface RefusalProps {
  readonly why: FieldMessage;
  /** The field that it stands beside: any other is named. */
  readonly beside?: string;
  readonly id?: string;
  /** Read aloud by itself; not where a live region around it does so. */
  readonly alert?: boolean;
}

/** Expected, got, remedy. */
export function Refusal({ why, beside = "", id, alert = false }: RefusalProps) {
  return (
    <p class="message" id={id} role={alert ? "alert" : undefined}>
      {why.field !== beside && <strong>{upper(fieldName(why.field))}: </strong>}
      expected {why.expected}; got {why.got}. <em>{upper(why.remedy)}.</em>
    </p>
  );
}

/** Notes one below the other. */
export function NoteLines({ notes }: { readonly notes: readonly Note[] }) {
  return (
    <>
      {notes.map((note) => (
        <p key={note.code} class="consequence">
          {note.message} {note.remedy}
        </p>
      ))}
    </>
  );
}
