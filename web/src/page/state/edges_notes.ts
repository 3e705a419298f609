// What is known of the picture beside each arris, held against the job in hand. Pure.
import type { EdgesReply, Fill, Job, Note, SideFigures } from "../../contract/types";
import { setSide, SIDES, type SideName } from "./edit";

/** What the answer depends on, as a text: as long as it stays the same, so does the answer. */
export function edgesKey(job: Job, picture: number): string {
  const fills = SIDES.map((side) => fillOf(job, side));
  return JSON.stringify([picture, job.picture, job.face, job.bars, job.canvas.thickness_mm, job.group, fills]);
}

/** The fill that a side shows. */
export function fillOf(job: Job, side: SideName): Fill {
  return job.sides[side]?.fill ?? job.sides.fill;
}

/** The figures of the side that a note is about. */
export function sideOf(reply: EdgesReply, note: Note): SideFigures | undefined {
  return reply.sides.find(({ side }) => note.field === `sides.${side}.fill`);
}

/** The notes that still hold: a side that has been given another fill since is not spoken of. */
export function stillHolding(reply: EdgesReply, job: Job): Note[] {
  return reply.notes.filter((note) => {
    const figures = sideOf(reply, note);
    return figures !== undefined && fillOf(job, figures.side) === figures.fill;
  });
}

/** Give one side a fill and leave what else is its own; a side that is then as the others follows them again. */
export const takeFill =
  (side: SideName, fill: Fill) =>
  (job: Job): Job => {
    const own = { ...job.sides[side], fill };
    const alike = fill === job.sides.fill && Object.keys(own).length === 1;
    return setSide(side, alike ? undefined : own)(job);
  };
