// What the cutting plan says, in words and figures. Pure.
import type { Plan, PlannedCut, PlannedSheet, PlacedPiece } from "../../../contract/types";
import { lengthShown, percentShown, sizeShown, trimmed, type Unit } from "../../../units";
import { decimal, say } from "../../../speech/on_page";

export interface PlanRow {
  readonly name: string;
  readonly head: string;
  readonly text: string;
}

/** How much canvas the plan takes, in a sentence. */
export function planSentence({ figures, sheets }: Plan, unit: Unit): string {
  const canvases = counted(figures.pieces, say("canvas"), say("canvases"));
  const rolls = sheets.filter((sheet) => sheet.is_roll).length;
  const flat = sheets.length - rolls;
  const on = [
    ...(flat > 0 ? [counted(flat, say("sheet"), say("sheets"))] : []),
    ...(rolls > 0
      ? [say("{roll_length_mm} of the roll", { roll_length_mm: lengthShown(figures.roll_length_mm, unit) })]
      : []),
  ];
  return say("{canvases} on {on}, {counted}.", {
    canvases,
    on: on.join(say(" and ")),
    counted: counted(figures.cuts, say("cut"), say("cuts")),
  });
}

/** The figures of the plan, line by line. */
export function planRows({ figures }: Plan): readonly PlanRow[] {
  const { stock_m2, used_m2, waste_m2, waste_share, rows_m2, cost } = figures;
  return [
    { name: "stock", head: say("Canvas taken"), text: area(stock_m2) },
    { name: "used", head: say("Used"), text: area(used_m2) },
    { name: "waste", head: say("Waste"), text: `${area(waste_m2)}, ${percentShown(waste_share)}` },
    { name: "rows", head: say("In rows and columns it takes"), text: area(rows_m2) },
    ...(cost === undefined ? [] : [{ name: "cost", head: say("Cost"), text: decimal(cost.toFixed(2)) }]),
  ];
}

/** The heading of one sheet, or of one length of the roll. */
export function sheetHead(sheet: PlannedSheet, unit: Unit): string {
  const size = sizeShown(sheet.width_mm, sheet.height_mm, unit);
  const { number } = sheet;
  return sheet.is_roll
    ? say("Length {number}: {size}", { number, size })
    : say("Sheet {number}: {size}", { number, size });
}

/** Where a cut runs. */
export function cutText(cut: PlannedCut, unit: Unit): string {
  const across = cut.way === "across";
  const [at, axis] = across ? [cut.start_mm[1], 0] : [cut.start_mm[0], 1];
  const [from, to] = [cut.start_mm[axis] ?? 0, cut.end_mm[axis] ?? 0];
  const place = say("{at} from the {words}", { at: lengthShown(at, unit), words: across ? say("top") : say("left") });
  const ends = say("from {from} to {to}", { from: lengthShown(from, unit), to: lengthShown(to, unit) });
  const runs = across ? say("Across, {place}, {ends}", { place, ends }) : say("Down, {place}, {ends}", { place, ends });
  return `${runs}${cut.trims ? say("; the waste comes off") : ""}`;
}

/** A piece on the drawing: of one job only what tells its pieces apart. */
export function pieceLabel({ name, job }: PlacedPiece): string {
  return name.startsWith(`${job}, `) ? name.slice(job.length + 2) : name;
}

/** A piece for those who hear the page; it begins with what those who see the page read on it. */
export function pieceText(piece: PlacedPiece, unit: Unit): string {
  const { name, width_mm, height_mm, x_mm, y_mm, turned, pinned } = piece;
  const place = say("{x_mm} from the left, {y_mm} from the top", {
    x_mm: lengthShown(x_mm, unit),
    y_mm: lengthShown(y_mm, unit),
  });
  return [
    name,
    sizeShown(width_mm, height_mm, unit),
    ...(turned ? [say("turned")] : []),
    place,
    ...(pinned ? [say("pinned")] : []),
  ].join(", ");
}

function area(m2: number): string {
  return say("{m2} m²", { m2: trimmed(m2, 3) });
}

function counted(number: number, one: string, many: string): string {
  return `${number} ${number === 1 ? one : many}`;
}
