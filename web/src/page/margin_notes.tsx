// The notes, worst first. Each shows its place and leads to the field that solves it.
import type { Note } from "../contract/types";
import { edges, marginNotes } from "./state/sides/edges";
import { sideOf } from "./state/sides/edge_figures";
import { focusField } from "./state/page/fields";
import { fieldName } from "./state/page/names";
import { PLACE_NAMES, SEVERITY_NAMES } from "./state/page/notes";
import { showPlace } from "./state/page/view";
import { lacksPicture, shown } from "./state/work/work";
import { inUnit } from "../units";
import { unit } from "./state/page/settings";
import { PictureLacking } from "./picture_lacking";
import { BetterFillButton, CropMoveButton } from "./sections/sides/side_edges";
import { say } from "../speech/on_page";

export function MarginNotes() {
  const all = marginNotes.value;
  if (shown.value === undefined) return null;
  return (
    <section class="notes" aria-label={say("Before you print")}>
      <h2 class="minor" id="notes-title" tabIndex={-1}>
        {say("Before you print")}
      </h2>
      {all.length === 0 && !lacksPicture.value ? (
        <p class="aside">{say("Nothing to mend: the canvas fits, and the picture is fine enough.")}</p>
      ) : (
        <ul class="notes-list" aria-live="polite">
          <PictureLacking />
          {all.map((note) => (
            <OneNote key={`${note.code} ${note.place}`} note={note} />
          ))}
        </ul>
      )}
    </section>
  );
}

function OneNote({ note }: { readonly note: Note }) {
  const figures = edges.value && sideOf(edges.value, note);
  return (
    <li class={`note note-${note.severity}`}>
      <p class="note-head">
        <Sign severity={note.severity} />
        <span class="note-severity">{SEVERITY_NAMES[note.severity]}</span>
        <button type="button" class="link" onClick={() => showPlace(note.place)}>
          {say("show {place}", { place: PLACE_NAMES[note.place] })}
        </button>
      </p>
      <p class="note-message">{inUnit(note.message, unit.value)}</p>
      <p class="note-remedy">
        {inUnit(note.remedy, unit.value)}{" "}
        {note.field !== "" && (
          <button type="button" class="link" onClick={() => focusField(note.field)}>
            {say("Go to {fieldName}", { fieldName: fieldName(note.field) })}
          </button>
        )}
        {figures !== undefined && (
          <>
            {" "}
            <BetterFillButton figures={figures} then="notes-title" />{" "}
            <CropMoveButton figures={figures} then="notes-title" />
          </>
        )}
      </p>
    </li>
  );
}

/** Shapes tell severities apart, not colour alone: a full square, a triangle, a ring. */
function Sign({ severity }: { readonly severity: Note["severity"] }) {
  return (
    <svg class="sign" viewBox="0 0 16 16" aria-hidden="true">
      {severity === "stop" && <rect x="2" y="2" width="12" height="12" />}
      {severity === "watch" && <path d="M8 2 L15 14 L1 14 Z" />}
      {severity === "hint" && <circle cx="8" cy="8" r="4.5" />}
    </svg>
  );
}
