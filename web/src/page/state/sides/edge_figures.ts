// The judgement of the picture beside each edge: its key, the notes that still hold, and its figures as text. Pure.
import { dependsOn } from "../../../contract/dependence";
import type { Crop, EdgesReport, Fill, Job, Note, SideReport } from "../../../contract/types";
import { capitalised } from "../page/fields";
import { fillWord } from "../page/names";
import { setCrop, setSide, type SideName } from "../work/edit";
import { lengthShown, type Unit } from "../../../units";
import { decimal, say } from "../../../speech/on_page";

/** The key of the answer: while the key stays the same, so does the answer. */
export function edgesKey(job: Job, picture: number): string {
  return JSON.stringify([picture, dependsOn(job, "edges")]);
}

/** The fill that a side shows. */
export function fillOf(job: Job, side: SideName): Fill {
  return job.sides[side]?.fill ?? job.sides.fill;
}

/** The figures of the side that a note is about. */
export function sideOf(reply: EdgesReport, note: Note): SideReport | undefined {
  return reply.sides.find(({ side }) => note.field === `sides.${side}.fill`);
}

/** The notes that still hold: not those of a side, or about several, that has another fill by now. */
export function currentNotes(reply: EdgesReport, job: Job): Note[] {
  return reply.notes.filter((note) => {
    const figures = sideOf(reply, note);
    const about = figures === undefined ? reply.sides : [figures];
    return about.every(({ side, fill }) => fillOf(job, side) === fill);
  });
}

/** Give one side a fill and leave what else is its own; a side that is then as the others follows them again. */
export const setSideFill =
  (side: SideName, fill: Fill) =>
  (job: Job): Job => {
    const own = { ...job.sides[side], fill };
    const alike = fill === job.sides.fill && Object.keys(own).length === 1;
    return setSide(side, alike ? undefined : own)(job);
  };

/** Whether what was judged of one job holds for another. */
export const judgedAlike = (judged: Job, job: Job): boolean =>
  judged.picture.sha256 === job.picture.sha256 && edgesKey(judged, 0) === edgesKey(job, 0);

/** Move the crop of the job that the move was worked out for; any other stays as it is. */
export const moveCropOf =
  (judged: Job, crop: Crop) =>
  (job: Job): Job =>
    judgedAlike(judged, job) ? setCrop(crop)(job) : job;

export type Figure =
  "busy" | "cut" | "doubled" | "broken" | "chevrons" | "repeated" | "smeared" | "bent" | "severed" | "streaked";

export interface FigureWords {
  readonly name: Figure;
  readonly head: string;
  readonly meaning: string;
}

/** What the picture has beside an edge. */
export const FIGURES: readonly FigureWords[] = [
  { name: "busy", head: say("Busy"), meaning: say("how much fine detail the strip has, as deep as the bars") },
  { name: "doubled", head: say("Doubled"), meaning: say("how plainly a mirror would show a shape twice") },
  {
    name: "broken",
    head: say("Broken"),
    meaning: say("how plainly a mirror would bend a line that runs aslant into the front edge"),
  },
  {
    name: "cut",
    head: say("Cut"),
    meaning: say("how plainly “picture runs on” would cut something distinct, or take it off the face"),
  },
  { name: "streaked", head: say("Streaked"), meaning: say("how plainly the edge drawn out would show streaks") },
];

/** What a mirror and lines continued would look like. */
export const LAID_FIGURES: readonly FigureWords[] = [
  { name: "chevrons", head: say("Chevrons"), meaning: say("how plainly a mirror would turn slanted lines back") },
  {
    name: "repeated",
    head: say("Repeated"),
    meaning: say("how plainly a mirror would show again what stands further in, over plain ground"),
  },
  {
    name: "smeared",
    head: say("Smeared"),
    meaning: say("how much of its detail “lines continued” would draw out into streaks"),
  },
  {
    name: "bent",
    head: say("Bent"),
    meaning: say("how much of the front edge “lines continued” would bend lines along"),
  },
  {
    name: "severed",
    head: say("Severed"),
    meaning: say("how much of the front edge cuts distinct things, which “lines continued” would show as stubs"),
  },
];

/** What a move of the crop is, as a button. */
export function moveShown({ move }: SideReport, unit: Unit): string {
  if (move === undefined) return "";
  const { right_mm, down_mm } = move;
  if (right_mm !== 0)
    return say("Move the crop {right_mm} to the {words}", {
      right_mm: lengthShown(Math.abs(right_mm), unit),
      words: right_mm > 0 ? say("right") : say("left"),
    });
  return say("Move the crop {down_mm} {words}", {
    down_mm: lengthShown(Math.abs(down_mm), unit),
    words: down_mm > 0 ? say("down") : say("up"),
  });
}

export const figureShown = (value: number): string => decimal(value.toFixed(2));

/** Which sides are worth a look, in a sentence. */
export function edgesSentence(reply: EdgesReport): string {
  const worth = reply.sides.filter(({ reason }) => reason !== "").map(({ side }) => say(side));
  if (worth.length === 0) return say("Every side's fill suits what the picture has beside its edge.");
  const last = worth.at(-1) ?? "";
  const named = worth.length === 1 ? last : say("{worth} and {last}", { worth: worth.slice(0, -1).join(", "), last });
  return say("Worth a look: the {named} side{words}.", { named, words: worth.length === 1 ? "" : say("s") });
}

/** What suits a side whose fill does well: a mirror, where lines continued are one. */
export function suitsShown({ fill, mirrored }: SideReport): string {
  return fill === "continued" && mirrored
    ? say("A mirror suits it better than lines continued, and it is one.")
    : say("{fillWord} suits it.", { fillWord: fillWord(fill) });
}

/** Why a side is worth a look; nothing where its fill does well. */
export function reasonShown({ reason }: SideReport): string {
  return reason === "" ? "" : `${capitalised(reason)}.`;
}
