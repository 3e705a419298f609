// A group of panels as text: what it takes of the wall, of the picture, and of the sheets or the roll. Pure.
import type { Job, Layout } from "../../../contract/types";
import { loaded, sheetFit } from "./consequences";
import { capitalised } from "../page/fields";
import { lengthShown, sizeShown, type Unit } from "../../../units";
import { say } from "../../../speech/on_page";

/** A small number in words; others stand as digits. */
const COUNTS: Readonly<Record<number, string>> = {
  2: say("two##count"),
  3: say("three##count"),
  4: say("four##count"),
  5: say("five##count"),
};

/** "three panels". */
function panelCount(panels: number): string {
  return say("{counts} panel{words}", { counts: COUNTS[panels] ?? panels, words: panels === 1 ? "" : say("s") });
}

/** A sentence about the size of all panels together on the wall. */
export function onTheWall({ wall_mm }: Layout, { group }: Job, unit: Unit): string {
  if (wall_mm === undefined) return say("One canvas for the whole picture.");
  return say("With the gaps the {panelCount} take {wall_mm} of the wall.", {
    panelCount: panelCount(group.panels),
    wall_mm: sizeShown(wall_mm[0], wall_mm[1], unit),
  });
}

/** How much of the picture lies behind all gaps, in mm on the wall. */
export function behindGaps({ group }: Job, unit: Unit): string {
  const gaps = group.panels - 1;
  if (group.across_gap === "joined" || group.gap_mm === 0) return say("Nothing of the picture lies behind a gap.");
  return say("{gaps} of the picture's {words} lie behind {words2}.", {
    gaps: lengthShown(gaps * group.gap_mm, unit),
    words: group.hung === "across" ? say("width") : say("height"),
    words2: gaps === 1 ? say("the gap") : say("{counts} gaps", { counts: COUNTS[gaps] ?? gaps }),
  });
}

/** What all faces span of the picture, in mm as one face is printed: its gaps too where it runs on behind them. */
export function picturedSpan(layout: Layout, { face, canvas, group }: Job): { width: number; height: number } {
  const [wide, high] = layout.flat.face_zone_mm;
  const gaps = (group.panels - 1) * (group.across_gap === "behind" ? group.gap_mm : 0);
  // The gap shrinks with the face where the canvas is printed smaller and pulled to size.
  if (group.hung === "across") {
    const printed = wide / (face.width_mm + 2 * canvas.thickness_mm);
    return { width: group.panels * wide + gaps * printed, height: high };
  }
  const printed = high / (face.height_mm + 2 * canvas.thickness_mm);
  return { width: wide, height: group.panels * high + gaps * printed };
}

/** Whether what is loaded holds the canvas, of a group all of them, and what of a roll is cut. */
export function allFit(layout: Layout, job: Job, unit: Unit): string {
  return planFit(layout, job, unit) ?? sheetFit(layout, job, unit);
}

/** How the loaded sheets or roll hold all canvases; nothing where not even one fits, or there is but one. */
function planFit({ plan }: Layout, job: Job, unit: Unit): string | undefined {
  if (plan === undefined) return undefined;
  const turn = plan.turned ? say(", turned sideways") : "";
  const canvases = say("the {counts} canvases", { counts: COUNTS[job.group.panels] ?? job.group.panels });
  if (loaded(job) === "roll")
    return say("{length_mm} of the roll hold {canvases}{turn}.", {
      length_mm: lengthShown(plan.length_mm, unit),
      canvases,
      turn,
    });
  const [sheets, all] = [plan.sheets.length, job.group.panels];
  if (sheets === 1) return say("One sheet holds {canvases}{turn}.", { canvases, turn });
  if (sheets === all) return say("Each of {canvases} takes a sheet of its own{turn}.", { canvases, turn });
  return say("{canvases} take {counts} sheets{turn}: {sheets}.", {
    canvases: capitalised(canvases),
    counts: COUNTS[sheets] ?? sheets,
    turn,
    sheets: plan.sheets.map((sheet) => sheet.length).join(say(", then ")),
  });
}
