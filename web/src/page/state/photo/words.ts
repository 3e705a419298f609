// Sentences about a piece on a photographed wall. Pure.
import type { MeasureWallReply } from "../../../contract/types";
import { distanceMm, type Edge, type EdgeKind, type HungSize } from "../../../photo/placing";
import type { Point } from "../../../photo/plane";
import { lengthShown, MM_PER_INCH, trimmed, type Unit } from "../../../units";
import { say } from "../../../speech/on_page";

export const EDGE_WORDS: readonly { readonly value: EdgeKind; readonly word: string }[] = [
  { value: "floor", word: say("The floor") },
  { value: "below", word: say("An edge below") },
  { value: "above", word: say("An edge above") },
  { value: "left", word: say("An edge to the left") },
  { value: "right", word: say("An edge to the right") },
];

const CORNER_WORDS = [say("Upper left"), say("Upper right"), say("Lower right"), say("Lower left")] as const;

/** A length on the wall, no finer than a photograph tells. */
function wallLength(mm: number, unit: Unit): string {
  return lengthShown(unit === "mm" ? Math.round(mm) : mm, unit);
}

/** `300 mm wide, within 4 mm; 200 mm high, within 3 mm.` */
export function sizeSentence(size: HungSize, { report }: Pick<MeasureWallReply, "report">, unit: Unit): string {
  const within = (mm: number): string =>
    unit === "mm"
      ? say("{value} mm", { value: Math.max(1, Math.ceil(mm)) })
      : say("{value} in", { value: trimmed(Math.max(0.05, Math.ceil((mm / MM_PER_INCH) * 20) / 20), 2) });
  const wide = say("{widthMm} wide, within {within}", {
    widthMm: lengthShown(size.widthMm, unit),
    within: within(report.width_within_mm),
  });
  return say("{wide}; {heightMm} high, within {within}.", {
    wide,
    heightMm: lengthShown(size.heightMm, unit),
    within: within(report.height_within_mm),
  });
}

/** What is between the piece and an edge. */
export function edgeSentence(edge: Edge, at: Point, size: HungSize, unit: Unit): string {
  const gap = distanceMm(edge, at, size);
  const shown = wallLength(Math.abs(gap), unit);
  if (edge.kind === "floor")
    return gap >= 0
      ? say("Its middle is {shown} above the floor.", { shown })
      : say("Its middle is {shown} below the floor.", { shown });
  const where = { below: say("below"), above: say("above"), left: say("to the left"), right: say("to the right") }[
    edge.kind
  ];
  return gap >= 0
    ? say("{shown} to the edge {where}.", { shown, where })
    : say("It reaches {shown} over the edge {where}.", { shown, where });
}

/** Where the piece hangs, from the first reference's lower-left corner. */
export function placeSentence([x, y]: Point, unit: Unit): string {
  const across = say("{wallLength} to the {words}", {
    wallLength: wallLength(Math.abs(x), unit),
    words: x < 0 ? say("left") : say("right"),
  });
  const shown = wallLength(Math.abs(y), unit);
  const up = y < 0 ? say("{shown} below", { shown }) : say("{shown} above", { shown });
  return say("Its middle is {across} of and {up} the lower-left corner of the first reference.", { across, up });
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
  const of = references > 1 ? say(" of reference {reference}", { reference: reference + 1 }) : "";
  return say(
    "{corner} corner{of}: {x} pixels from the left, {y} from the top. Arrow keys move it by one pixel, with Shift by ten.",
    { corner: CORNER_WORDS[corner] ?? "", of, x: trimmed(x, 1), y: trimmed(y, 1) },
  );
}

export function edgeLabel(kind: EdgeKind): string {
  const word = EDGE_WORDS.find(({ value }) => value === kind)?.word ?? kind;
  return say("{word}. Arrow keys move it by 1 mm, with Shift by 10 mm.", { word });
}

/**
 * What stands in the piece's place before it hangs: what the core is at, or what a hand has to do. `measuring`: every
 * reference has its corners, and the answer is on its way.
 */
export function awaitedSentence(busy: string, measuring: boolean): string {
  if (busy !== "") return busy;
  if (measuring) return say("Measuring the wall");
  return say("The piece hangs here as soon as the corners of the reference are marked.");
}
