// What the core has said: why it has refused something, and its notes on what came of the rest.
import type { Note } from "../../contract/types";
import { type FieldMessage, upper } from "../state/messages";
import { fieldName } from "../state/names";

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
