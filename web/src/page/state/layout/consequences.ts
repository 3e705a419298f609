// The consequence of a setting as a sentence with its figures, shown beside the control. Pure.
import type { Bulk, FileKind, Job, Layout } from "../../../contract/types";
import { isoName } from "./sizes";
import { lengthShown, MM_PER_INCH, percentShown, sizeShown, trimmed, type Unit } from "../../../units";
import { saidAgain, say } from "../../../speech/on_page";

/** Rules of thumb, from memory; the page marks them as common practice. */
const FINE_PPI = 150;
const COARSE_PPI = 100;

export function faceSize(job: Job, unit: Unit): string {
  const { width_mm, height_mm } = job.face;
  const other = sizeShown(width_mm, height_mm, unit === "mm" ? "inch" : "mm");
  const name = isoName(width_mm, height_mm);
  return name === undefined
    ? say("That is {other}.", { other })
    : say("That is {name} (ISO 216), {other}.", { name, other });
}

/** How fine the picture is on the face. */
export function fineness(layout: Layout): { text: string; practice: string } | undefined {
  if (layout.use === undefined) return undefined;
  const ppi = layout.use.effective_ppi;
  const judged =
    ppi >= FINE_PPI
      ? say("enough at wall distance")
      : ppi >= COARSE_PPI
        ? say("soft")
        : say("too few, it will look coarse");
  return {
    text: say("{ppi} picture pixels per inch on the face: {judged}.", { ppi: Math.floor(ppi + 1e-6), judged }),
    practice: say("{finePpi} and more is enough, from memory", { finePpi: FINE_PPI }),
  };
}

export function deepestBar(layout: Layout, job: Job, unit: Unit): string {
  const holder = loaded(job);
  const mm = layout.sheet.largest_depth_mm;
  if (mm === undefined || mm <= 0)
    return say("No bar depth fits on this {holder} with this face and this turn-over.", { holder });
  return say("This {holder} holds bars up to {mm} deep.", { holder, mm: atMost(mm, unit) });
}

export function widestTurnover(layout: Layout, job: Job, unit: Unit): string {
  const holder = loaded(job);
  const mm = layout.sheet.largest_turnover_mm;
  if (mm === undefined || mm < 0)
    return say("No turn-over fits on this {holder} with this face and these bars.", { holder });
  return say("This {holder} holds a turn-over up to {mm}.", {
    holder,
    mm: atMost(mm, unit),
  });
}

/** Rounded down, because a length that is reported to fit must fit. */
function atMost(mm: number, unit: Unit): string {
  const shown =
    unit === "mm" ? Math.floor(mm * 10 + 1e-6) / 10 : (Math.floor((mm / MM_PER_INCH) * 100 + 1e-6) / 100) * MM_PER_INCH;
  return lengthShown(shown, unit);
}

/** Sheet or roll, as it is called. */
export function loaded(job: Job): "sheet" | "roll" {
  return job.sheet.height_mm === undefined ? "roll" : "sheet";
}

/** The shares of the picture that the sides take and that the crop cuts off. */
export function pictureShares(layout: Layout): string {
  if (layout.use === undefined) return "";
  return say("The sides take {run_on_share} of the picture; {cut_away_share} is cropped away.", {
    run_on_share: percentShown(layout.use.run_on_share),
    cut_away_share: percentShown(layout.use.cut_away_share),
  });
}

export function cutAway(layout: Layout): string {
  if (layout.use === undefined) return "";
  const share = layout.use.cut_away_share;
  return share < 0.0005
    ? say("Nothing of the picture is cropped away.")
    : say("{share} of the picture is cropped away.", { share: percentShown(share) });
}

/** Whether the sheet holds the canvas, and by how much. */
export function sheetFit(layout: Layout, job: Job, unit: Unit): string {
  const { fits, turned, slack_mm, ink_slack_mm, length_mm } = layout.sheet;
  const turn = turned ? say(", turned sideways") : "";
  const holder = loaded(job);
  if (fits) {
    if (holder === "roll")
      return say("The canvas fits on the roll{turn}: {slack_mm} to spare across; it takes {length_mm} of the roll.", {
        turn,
        slack_mm: lengthShown(slack_mm[0], unit),
        length_mm: lengthShown(length_mm, unit),
      });
    return say("The canvas fits on the sheet{turn}: {slack_mm} to spare across, {slack_mm2} down.", {
      turn,
      slack_mm: lengthShown(slack_mm[0], unit),
      slack_mm2: lengthShown(slack_mm[1], unit),
    });
  }
  const lacks = [
    ...lack(slack_mm[0], say("too wide"), unit),
    ...(holder === "sheet" ? lack(slack_mm[1], say("too long"), unit) : []),
  ];
  if (lacks.length > 0)
    return say("The canvas does not fit on the {holder}{turn}: it is {lacks}.", {
      holder,
      turn,
      lacks: lacks.join(say(" and ")),
    });
  const [across, down] = ink_slack_mm.map((mm) => lengthShown(-mm, unit));
  const ink = [
    ...(ink_slack_mm[0] < 0 ? [say("{across} across", { across: across ?? "" })] : []),
    ...(holder === "sheet" && ink_slack_mm[1] < 0 ? [say("{down} down", { down: down ?? "" })] : []),
  ];
  return say("The print does not fit between the margins of the {holder}{turn}{words}.", {
    holder,
    turn,
    words: ink.length > 0 ? say(": {ink} too much", { ink: ink.join(say(" and ")) }) : "",
  });
}

function lack(slack_mm: number, word: string, unit: Unit): string[] {
  return slack_mm < 0 ? [`${lengthShown(-slack_mm, unit)} ${word}`] : [];
}

export function canvasCut(layout: Layout, unit: Unit): string {
  const [width, height] = layout.flat.canvas_mm;
  const figures = { width: sizeShown(width, height, unit), weight_g: Math.round(layout.flat.weight_g) };
  return layout.wall_mm === undefined
    ? say("The canvas is cut to {width} and weighs {weight_g} g, the canvas alone.", figures)
    : say("Each panel's canvas is cut to {width} and weighs {weight_g} g, the canvas alone.", figures);
}

export function takeUp(job: Job, unit: Unit): string {
  const wider = 2 * job.canvas.thickness_mm;
  return say("Allowance for the canvas's thickness: the printed face is {words} larger than the wood, each way.", {
    words:
      unit === "mm"
        ? say("{wider} mm", { wider: trimmed(wider, 2) })
        : say("{wider} in", { wider: trimmed(wider / MM_PER_INCH, 3) }),
  });
}

export function stretched(layout: Layout, job: Job, unit: Unit): string {
  const [across, down] = job.canvas.stretch_percent;
  if (across === 0 && down === 0) return say("Printed at full size.");
  const wide = job.face.width_mm + 2 * job.canvas.thickness_mm - layout.flat.face_zone_mm[0];
  const high = job.face.height_mm + 2 * job.canvas.thickness_mm - layout.flat.face_zone_mm[1];
  return say("The face is printed {wide} narrower and {high} shorter, and pulled to size.", {
    wide: lengthShown(wide, unit),
    high: lengthShown(high, unit),
  });
}

/** Layers at the thickest places. */
export function bulky(bulk: readonly Bulk[], unit: Unit): string {
  const thick = bulk.filter((one) => one.layers > 1);
  if (thick.length === 0) return "";
  const parts = thick.map((one) => {
    const mm =
      unit === "mm"
        ? say("{thickness_mm} mm", { thickness_mm: trimmed(one.thickness_mm, 2) })
        : say("{thickness_mm} in", { thickness_mm: trimmed(one.thickness_mm / MM_PER_INCH, 3) });
    return say("{place}: {layers} layers, {mm}", { place: saidAgain(one.place), layers: one.layers, mm });
  });
  return `${parts.join("; ")}.`;
}

/** What to measure on the print: whether it came out at its size. */
export function measuredOnPrint(layout: Layout, job: Job, unit: Unit): string {
  const [width, height] = layout.flat.face_zone_mm;
  const size = sizeShown(width, height, unit);
  return job.print.marks
    ? say(
        "Measure the print: the printed face is {size} and the fold ticks, where the print has them, stand as far apart. If not, something has scaled the file.",
        { size },
      )
    : say("Measure the print: the printed face is {size}. If not, something has scaled the file.", { size });
}

/** The print file in pixels: round half up of mm / 25.4 × ppi; its raw size tells how long it will take. */
export function filePixels(layout: Layout, job: Job): string {
  const [width, height] = layout.flat.canvas_mm.map((mm) => Math.floor((mm / MM_PER_INCH) * job.print.ppi + 0.5));
  if (width === undefined || height === undefined) return "";
  const million = (width * height) / 1e6;
  return say("{width} × {height} pixels, {million} million; {width2} uncompressed.", {
    width,
    height,
    million: trimmed(million, million < 10 ? 1 : 0),
    width2: bytesShown(width * height * 3 * (job.print.bits / 8)),
  });
}

/** By how much the picture is enlarged or reduced for the print file. */
export function enlargement(layout: Layout, job: Job): string | undefined {
  if (layout.use === undefined) return undefined;
  const times = job.print.ppi / layout.use.effective_ppi;
  if (Math.abs(times - 1) < 0.005) return say("The picture has just as many pixels as the print file takes.");
  if (times < 1) return say("The picture has more pixels than the print file takes; it is reduced, not enlarged.");
  return say("The picture is enlarged {times} times.", { times: trimmed(times, times < 10 ? 2 : 0) });
}

/** What becomes of 16 bits in a format that has 8. */
export function depthOf(job: Job, kind: FileKind): string | undefined {
  if (job.print.bits === 8 || kind !== "jpeg") return undefined;
  return say("A JPEG has 8 bits a channel: choose TIFF, PNG or PDF for 16.");
}

export function bytesShown(bytes: number): string {
  if (bytes < 1e6) return say("{value} kB", { value: Math.max(1, Math.round(bytes / 1e3)) });
  return bytes < 1e9
    ? say("{bytes} MB", { bytes: trimmed(bytes / 1e6, bytes < 1e7 ? 1 : 0) })
    : say("{bytes} GB", { bytes: trimmed(bytes / 1e9, 2) });
}
