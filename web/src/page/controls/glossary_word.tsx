// A trade word that opens its entry in the guide's glossary, with a drawing, in a new tab.
import type { ComponentChildren } from "preact";
import { say } from "../../speech/on_page";

/** The glossary's entries: the ids in guide.html, which a test compares. */
export const GLOSSARY = [
  "back-edge",
  "bar-depth",
  "black-point-compensation",
  "bleed",
  "clip",
  "crop",
  "cut-back",
  "face",
  "folded-corner",
  "front-edge",
  "gamut",
  "give",
  "lapped",
  "margin",
  "ppi",
  "profile",
  "proof",
  "rendering-intent",
  "setback",
  "side",
  "slack",
  "soft-proof",
  "tab",
  "thickness",
  "trimmed",
  "tucked",
  "turn-over",
] as const;

export type GlossaryEntry = (typeof GLOSSARY)[number];

/** The entry that explains a field's label; a field that is not here has a label in plain words. */
const ENTRY_OF_FIELD: Readonly<Record<string, GlossaryEntry>> = {
  "bars.depth_mm": "bar-depth",
  "wrap.turnover_mm": "turn-over",
  "wrap.ink_over_mm": "bleed",
  "wrap.finish": "folded-corner",
  "wrap.corners": "cut-back",
  "wrap.setback_mm": "setback",
  "wrap.tab_mm": "tab",
  "canvas.thickness_mm": "thickness",
  "canvas.stretch_percent.0": "give",
  "canvas.stretch_percent.1": "give",
  "colour.intent": "rendering-intent",
  "print.ppi": "ppi",
};

interface GlossaryWordProps {
  readonly entry: GlossaryEntry;
  /** The word as it stands in the sentence. */
  readonly children: ComponentChildren;
}

/** The word as a link; its accessible name is the word alone, so that a label keeps its own. */
export function GlossaryWord({ entry, children }: GlossaryWordProps) {
  return (
    <a
      class="glossary-word"
      href={`./guide.html#${entry}`}
      target="_blank"
      title={say("Explained in the guide, in a new tab")}
    >
      {children}
    </a>
  );
}

/** A field's label, as a link where the glossary has its word. */
export function FieldLabel({ field, text }: { readonly field: string; readonly text: string }) {
  const entry = ENTRY_OF_FIELD[field];
  return entry === undefined ? <>{text}</> : <GlossaryWord entry={entry}>{text}</GlossaryWord>;
}
