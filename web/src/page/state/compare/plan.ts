// The plan of a comparison: one field of the job with two to four values. Pure.
import { dependsOn } from "../../../contract/dependence";
import type { CompareParams, Face, Fill, Finish, Job, Variant } from "../../../contract/types";
import { MOST_PANES } from "../../../stage/panes/panes";
import { SIDES, setBars, setColour, setFace, setSide, setSides, setWrap } from "../work/edit";
import { entryError, type FieldError } from "../page/fields";
import { fillWord, FINISHES } from "../page/names";
import { lengthShown, MM_PER_INCH, parseLength, percentShown, sizeShown, type Unit, withoutUnit } from "../../../units";
import { inRow, say } from "../../../speech/on_page";

/** One thing that variants differ in, and the values that it has in them. */
export type Plan =
  | { readonly kind: "depth"; readonly values: readonly number[] }
  /** Each as WIDTHxHEIGHT in mm. */
  | { readonly kind: "size"; readonly values: readonly string[] }
  | { readonly kind: "fill"; readonly values: readonly Fill[] }
  | { readonly kind: "finish"; readonly values: readonly Finish[] }
  | { readonly kind: "profile"; readonly values: readonly string[] }
  | { readonly kind: "bring-in"; readonly values: readonly number[] };

export type Kind = Plan["kind"];

/** Fewer are no comparison. */
const FEWEST = 2;

/** Common practice: small pieces, usual ones, and deep ones; each trade sells bars in its own unit. */
const USUAL_DEPTHS_MM: Record<Unit, readonly number[]> = { mm: [18, 38, 50], inch: [19.05, 38.1, 50.8] };

/** The usual depths of bars, in mm, where lengths are read in this unit; in inches 0.75, 1.5 and 2. */
export function usualDepths(unit: Unit): readonly number[] {
  return USUAL_DEPTHS_MM[unit];
}

/** What is compared, in words, and the job's field that holds it. */
export const KINDS: Record<Kind, { readonly field: string; readonly one: string; readonly many: string }> = {
  depth: { field: "bars.depth_mm", one: say("bar depth"), many: say("depths") },
  size: { field: "face.width_mm", one: say("face size"), many: say("sizes") },
  fill: { field: "sides.fill", one: say("side fill"), many: say("fills") },
  finish: { field: "wrap.finish", one: say("corner finish"), many: say("corners") },
  profile: { field: "colour.profile", one: say("canvas profile"), many: say("canvases") },
  "bring-in": { field: "colour.bring_in", one: say("amount of bringing in"), many: say("amounts of bringing in") },
};

/** One of the variants: its label, and the change that makes it from the job. */
export interface Choice {
  readonly label: string;
  readonly change: (job: Job) => Job;
}

/** The variants of a plan; `nameOf` says what a profile is called. */
export function choicesOf(plan: Plan, unit: Unit, nameOf: (profile: string) => string): readonly Choice[] {
  switch (plan.kind) {
    case "depth":
      return plan.values.map((depth_mm) => ({ label: lengthShown(depth_mm, unit), change: setBars({ depth_mm }) }));
    case "size":
      return plan.values.map((size) => {
        const { width_mm, height_mm } = faceOf(size);
        return { label: sizeShown(width_mm, height_mm, unit), change: setFace({ width_mm, height_mm }) };
      });
    case "fill":
      return plan.values.map((fill) => ({ label: fillWord(fill), change: fillAll(fill) }));
    case "finish":
      return plan.values.map((finish) => ({ label: finishWord(finish), change: setWrap({ finish }) }));
    case "profile":
      return plan.values.map((profile) => ({ label: nameOf(profile), change: setColour({ profile }) }));
    case "bring-in":
      return plan.values.map((bring_in) => ({ label: broughtWord(bring_in), change: setColour({ bring_in }) }));
  }
}

/** One fill on all four sides; the other settings of a side stay. */
export function fillAll(fill: Fill): (job: Job) => Job {
  return (job) => {
    let changed = setSides({ fill })(job);
    for (const side of SIDES) {
      const { fill: _former, ...rest } = job.sides[side] ?? {};
      changed = setSide(side, Object.keys(rest).length > 0 ? rest : undefined)(changed);
    }
    return changed;
  };
}

export function finishWord(finish: Finish): string {
  return FINISHES.find(({ value }) => value === finish)?.word ?? finish;
}

export function broughtWord(share: number): string {
  if (share === 0) return say("Nothing brought in");
  return share === 1 ? say("All brought in") : say("{share} brought in", { share: percentShown(share) });
}

/** Depths as they are written: commas between them, or semicolons where a comma is a decimal one. */
export function depthsText(depths_mm: readonly number[], unit: Unit): string {
  return inRow(depths_mm.map((mm) => withoutUnit(lengthShown(mm, unit))));
}

/** A list as it was typed, or the first part of it that is wrong. */
export type ParsedList<T> =
  { readonly ok: true; readonly values: readonly T[] } | { readonly ok: false; readonly got: string };

/** Read a list part by part: semicolons stand between the parts where there are any, else commas. */
function parsedList<T>(text: string, read: (part: string) => T | undefined): ParsedList<T> {
  const values: T[] = [];
  for (const written of text.split(text.includes(";") ? ";" : ",")) {
    const part = written.trim();
    if (part === "") continue;
    const value = read(part);
    if (value === undefined) return { ok: false, got: part };
    values.push(value);
  }
  return { ok: true, values };
}

/** Read a list of depths, in mm. */
export function parseDepths(text: string, unit: Unit): ParsedList<number> {
  return parsedList(text, (part) => {
    const parsed = parseLength(part, unit);
    return parsed.ok ? parsed.mm : undefined;
  });
}

/** The face of a size as a plan has it. */
export function faceOf(size: string): Face {
  const [width_mm = 0, height_mm = 0] = size.split("x").map(Number);
  return { width_mm, height_mm };
}

/** The shortest side that a face may have. */
const SHORTEST_MM = 50;

/**
 * The face itself, one of two thirds, one of three halves. The longer side is whole centimetres or inches; the other
 * follows the face's shape, so that all show as much of the picture, to a millimetre or a twentieth of an inch.
 */
export function usualSizes({ width_mm, height_mm }: Face, unit: Unit): readonly string[] {
  const [step, fine] = unit === "mm" ? [10, 1] : [MM_PER_INCH, MM_PER_INCH / 20];
  const [long, short] = [Math.max(width_mm, height_mm), Math.min(width_mm, height_mm)];
  const round = (mm: number, to: number): number => {
    const whole = Math.max(Math.ceil(SHORTEST_MM / to), Math.round(mm / to)) * to;
    return Math.round(whole * 1e4) / 1e4;
  };
  const sizes = [2 / 3, 1, 3 / 2].map((by) => {
    if (by === 1) return `${width_mm}x${height_mm}`;
    const longer = round(by * long, step);
    const other = round((longer * short) / long, fine);
    return width_mm >= height_mm ? `${longer}x${other}` : `${other}x${longer}`;
  });
  return [...new Set(sizes)];
}

/** Sizes as they are written. */
export function sizesText(sizes: readonly string[], unit: Unit): string {
  const shown = sizes.map((size) => {
    const { width_mm, height_mm } = faceOf(size);
    return withoutUnit(sizeShown(width_mm, height_mm, unit));
  });
  return inRow(shown);
}

/** Read a list of sizes. */
export function parseSizes(text: string, unit: Unit): ParsedList<string> {
  return parsedList(text, (part) => {
    const [width, height, ...more] = part.split(/[x×]/i).map((side) => parseLength(side.trim(), unit));
    if (width?.ok !== true || height?.ok !== true || more.length > 0) return undefined;
    return `${width.mm}x${height.mm}`;
  });
}

/** The error of a wrong number of variants; the core checks everything else. */
export function countWrong({ kind, values }: Plan): FieldError | undefined {
  if (values.length >= FEWEST && values.length <= MOST_PANES) return undefined;
  const expected = say("{fewest} to {mostPanes} {many} for a comparison", {
    fewest: FEWEST,
    mostPanes: MOST_PANES,
    many: KINDS[kind].many,
  });
  const remedy = values.length < FEWEST ? say("add another") : say("leave some out, or compare them in turn");
  return entryError(KINDS[kind].field, expected, String(values.length), remedy);
}

/** The variants as the tuple that the contract asks for; `countWrong` checks their number before. */
export function listed(variants: readonly Variant[]): CompareParams["variants"] {
  const [first, second, third, fourth, ...more] = variants;
  if (first !== undefined && second !== undefined && more.length === 0) {
    if (third === undefined) return [first, second];
    return fourth === undefined ? [first, second, third] : [first, second, third, fourth];
  }
  throw new Error("not two to four variants");
}

/** The key of an answer: what the comparison of these jobs depends on, and whatever else does. */
export function comparisonKey(jobs: readonly Job[], around: readonly unknown[]): string {
  return JSON.stringify([around, jobs.map((job) => dependsOn(job, "comparison"))]);
}
