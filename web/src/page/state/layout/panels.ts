// A group of panels as text: what it takes of the wall, of the picture, and of the sheets or the roll. Pure.
import type { Job, Layout } from "../../../contract/types";
import { loaded } from "./consequences";
import { capitalised } from "../page/fields";
import { lengthShown, sizeShown, type Unit } from "../../../units";

const COUNTS = ["no", "one", "two", "three", "four", "five"];

/** "three panels". */
function panelCount(panels: number): string {
  return `${COUNTS[panels] ?? panels} panel${panels === 1 ? "" : "s"}`;
}

/** A sentence about the size of all panels together on the wall. */
export function onTheWall({ wall_mm }: Layout, { group }: Job, unit: Unit): string {
  if (wall_mm === undefined) return "One canvas for the whole picture.";
  const whole = lengthShown(wall_mm[group.hung === "across" ? 0 : 1], unit);
  return `The ${panelCount(group.panels)} take ${sizeShown(wall_mm[0], wall_mm[1], unit)} of the wall: ${whole} ${group.hung === "across" ? "wide" : "high"} with the gaps.`;
}

/** How much of the picture lies behind all gaps, in mm on the wall. */
export function behindGaps({ group }: Job, unit: Unit): string {
  const gaps = group.panels - 1;
  if (group.across_gap === "joined" || group.gap_mm === 0) return "Nothing of the picture lies behind a gap.";
  return `${lengthShown(gaps * group.gap_mm, unit)} of the picture's ${group.hung === "across" ? "width" : "height"} lie behind ${gaps === 1 ? "the gap" : `${COUNTS[gaps] ?? gaps} gaps`}.`;
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

/** How the loaded sheets or roll hold all canvases; nothing where not even one fits, or there is but one. */
export function planFit({ plan }: Layout, job: Job, unit: Unit): string | undefined {
  if (plan === undefined) return undefined;
  const turn = plan.turned ? ", turned sideways" : "";
  const canvases = `the ${COUNTS[job.group.panels] ?? job.group.panels} canvases`;
  if (loaded(job) === "roll") return `${lengthShown(plan.length_mm, unit)} of the roll hold ${canvases}${turn}.`;
  const [sheets, all] = [plan.sheets.length, job.group.panels];
  if (sheets === 1) return `One sheet holds ${canvases}${turn}.`;
  if (sheets === all) return `Each of ${canvases} takes a sheet of its own${turn}.`;
  return `${capitalised(canvases)} take ${COUNTS[sheets] ?? sheets} sheets${turn}: ${plan.sheets.map((sheet) => sheet.length).join(", then ")}.`;
}
