// The figures of the picture beside each arris in words. Pure.
import type { EdgesReply, SideFigures } from "../../contract/types";
import { upper } from "./messages";

/** From here on a figure counts as high; the core's own bound for a hint. */
const HIGH = 0.5;

export type Figure = "busy" | "doubled" | "broken" | "cut";

export const FIGURES: readonly { readonly name: Figure; readonly head: string; readonly meaning: string }[] = [
  { name: "busy", head: "Busy", meaning: "how much fine detail the strip has, as deep as the bars" },
  { name: "doubled", head: "Doubled", meaning: "how plainly a mirror would show a shape twice" },
  { name: "broken", head: "Broken", meaning: "how plainly a mirror would bend a line that runs aslant into the arris" },
  { name: "cut", head: "Cut", meaning: "how plainly something stands out that carry would take off the face" },
];

export const isHigh = (value: number): boolean => value >= HIGH;

export const figureShown = (value: number): string => value.toFixed(2);

/** Which sides are worth a look, in a sentence. */
export function edgesSentence(reply: EdgesReply): string {
  const worth = reply.sides.filter(({ reason }) => reason !== "").map(({ side }) => side);
  if (worth.length === 0) return "Every side's fill suits what the picture has beside its arris.";
  const last = worth.at(-1) ?? "";
  const named = worth.length === 1 ? last : `${worth.slice(0, -1).join(", ")} and ${last}`;
  return `Worth a look: the ${named} side${worth.length === 1 ? "" : "s"}.`;
}

/** Why a side is worth a look; nothing where its fill does well. */
export function reasonShown({ reason }: SideFigures): string {
  return reason === "" ? "" : `${upper(reason)}.`;
}
