// Sentences about a piece on a photographed wall. Pure.
import type { MeasureWallReply } from "../../../contract/types";
import { distanceMm, type Edge, type EdgeKind, type HungSize } from "../../../photo/placing";
import type { Point } from "../../../photo/plane";
import { lengthShown, MM_PER_INCH, trimmed, type Unit } from "../../../units";

export const EDGE_WORDS: readonly { readonly value: EdgeKind; readonly word: string }[] = [
  { value: "floor", word: "The floor" },
  { value: "below", word: "An edge below" },
  { value: "above", word: "An edge above" },
  { value: "left", word: "An edge to the left" },
  { value: "right", word: "An edge to the right" },
];

const CORNER_WORDS = ["Upper left", "Upper right", "Lower right", "Lower left"] as const;

/** A length on the wall, no finer than a photograph tells. */
function wallLength(mm: number, unit: Unit): string {
  return lengthShown(unit === "mm" ? Math.round(mm) : mm, unit);
}

/** `300 mm wide, within 4 mm; 200 mm high, within 3 mm.` */
export function sizeSentence(size: HungSize, { report }: Pick<MeasureWallReply, "report">, unit: Unit): string {
  const within = (mm: number): string =>
    unit === "mm"
      ? `${Math.max(1, Math.ceil(mm))} mm`
      : `${trimmed(Math.max(0.05, Math.ceil((mm / MM_PER_INCH) * 20) / 20), 2)} in`;
  const wide = `${lengthShown(size.widthMm, unit)} wide, within ${within(report.width_within_mm)}`;
  return `${wide}; ${lengthShown(size.heightMm, unit)} high, within ${within(report.height_within_mm)}.`;
}

/** What is between the piece and an edge. */
export function edgeSentence(edge: Edge, at: Point, size: HungSize, unit: Unit): string {
  const gap = distanceMm(edge, at, size);
  const shown = wallLength(Math.abs(gap), unit);
  if (edge.kind === "floor")
    return gap >= 0 ? `Its middle is ${shown} above the floor.` : `Its middle is ${shown} below the floor.`;
  const where = { below: "below", above: "above", left: "to the left", right: "to the right" }[edge.kind];
  return gap >= 0 ? `${shown} to the edge ${where}.` : `It reaches ${shown} over the edge ${where}.`;
}

/** Where the piece hangs, from the first reference's lower-left corner. */
export function placeSentence([x, y]: Point, unit: Unit): string {
  const across = `${wallLength(Math.abs(x), unit)} to the ${x < 0 ? "left" : "right"}`;
  const up = `${wallLength(Math.abs(y), unit)} ${y < 0 ? "below" : "above"}`;
  return `Its middle is ${across} of and ${up} the lower-left corner of the first reference.`;
}

/** Place and size for those who do not see the photograph. */
export function pieceSentences(
  at: Point,
  size: HungSize,
  now: Pick<MeasureWallReply, "report"> | undefined,
  edges: readonly Edge[],
  unit: Unit,
): string {
  const hung = now === undefined ? "" : `${sizeSentence(size, now, unit)} `;
  const floor = edges.find(({ kind }) => kind === "floor");
  const place = floor === undefined ? placeSentence(at, unit) : "";
  return [hung + place, ...edges.map((edge) => edgeSentence(edge, at, size, unit))]
    .join(" ")
    .replace(/\s+/g, " ")
    .trim();
}

export function cornerLabel(reference: number, corner: number, references: number, [x, y]: Point): string {
  const of = references > 1 ? ` of reference ${reference + 1}` : "";
  return `${CORNER_WORDS[corner] ?? ""} corner${of}: ${trimmed(x, 1)} pixels from the left, ${trimmed(y, 1)} from the top. Arrow keys move it by one pixel, with Shift by ten.`;
}

export function edgeLabel(kind: EdgeKind): string {
  const word = EDGE_WORDS.find(({ value }) => value === kind)?.word ?? kind;
  return `${word}. Arrow keys move it by 1 mm, with Shift by 10 mm.`;
}
