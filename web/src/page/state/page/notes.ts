// The notes: their order, and the names of places and severities.
import type { Note, Place, Severity } from "../../../contract/types";
import { say } from "../../../speech/on_page";

const ORDER: readonly Severity[] = ["stop", "watch", "hint"];

export const SEVERITY_NAMES: Record<Severity, string> = {
  stop: say("Does not work"),
  watch: say("Look again"),
  hint: say("Good to know"),
};

export const PLACE_NAMES: Record<Place, string> = {
  face: say("the face"),
  top: say("the top side"),
  right: say("the right side"),
  bottom: say("the bottom side"),
  left: say("the left side"),
  corners: say("the corners"),
  back: say("the back"),
  sheet: say("the sheet"),
  picture: say("the picture"),
};

/** Worst first, otherwise in the order given; duplicates are dropped. */
export function worstFirst(notes: readonly Note[]): Note[] {
  const once = notes.filter(
    (note, index) =>
      notes.findIndex(
        (other) => other.code === note.code && other.place === note.place && other.message === note.message,
      ) === index,
  );
  return ORDER.flatMap((severity) => once.filter((note) => note.severity === severity));
}
