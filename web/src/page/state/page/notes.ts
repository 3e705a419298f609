// The notes: their order, and the names of places and severities.
import type { Note, Place, Severity } from "../../../contract/types";

const ORDER: readonly Severity[] = ["stop", "watch", "hint"];

export const SEVERITY_NAMES: Record<Severity, string> = {
  stop: "Does not work",
  watch: "Look again",
  hint: "Good to know",
};

export const PLACE_NAMES: Record<Place, string> = {
  face: "the face",
  top: "the top side",
  right: "the right side",
  bottom: "the bottom side",
  left: "the left side",
  corners: "the corners",
  back: "the back",
  sheet: "the sheet",
  picture: "the picture",
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
