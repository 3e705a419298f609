// Lengths and shares: shown and typed in mm or inches, kept in mm. One inch is 25.4 mm exactly.
import { typeset } from "./speech/figures";
import { decimal, say } from "./speech/say";

export type Unit = "mm" | "inch";

export const MM_PER_INCH = 25.4;

/** A length that was typed, in mm, or what is wrong with it. */
export type ParsedLength = { ok: true; mm: number } | { ok: false; expected: string };

/** A length in the unit's own number, without the unit: two decimals of mm at most, or three of an inch. */
export function lengthText(mm: number, unit: Unit): string {
  return unit === "mm" ? trimmed(mm, 2) : trimmed(mm / MM_PER_INCH, 3);
}

/** A length to be read, with its unit and no more digits than the eye can use. */
export function lengthShown(mm: number, unit: Unit): string {
  return unit === "mm" ? say("{mm} mm", { mm: trimmed(mm, 1) }) : say("{mm} in", { mm: trimmed(mm / MM_PER_INCH, 2) });
}

/** Two lengths as `300 × 400 mm`. */
export function sizeShown(width_mm: number, height_mm: number, unit: Unit): string {
  return `${withoutUnit(lengthShown(width_mm, unit))} × ${lengthShown(height_mm, unit)}`;
}

/** A length or a size as it is shown, without the unit behind it. */
export function withoutUnit(shown: string): string {
  return shown.replace(/ (mm|in)$/, "");
}

/** Pixels across and down, as `640 × 427 pixels`. */
export function pixelsShown(width_px: number, height_px: number): string {
  return say("{width_px} × {height_px} pixels", { width_px, height_px });
}

/** How far one press of an arrow key moves a length: a millimetre, or an eighth of an inch. */
export function lengthStep(unit: Unit): number {
  return unit === "mm" ? 1 : MM_PER_INCH / 8;
}

/**
 * Read a length as it was typed.
 *
 * Decimals with a point or a comma; in inches fractions too (`8 1/2`, `3/4`). A unit written behind the number
 * (`mm`, `cm`, `in`, `"`) holds for that number, not the page's unit.
 */
export function parseLength(text: string, unit: Unit): ParsedLength {
  const example = unit === "mm" ? say("for example 297 or 38.5") : say("for example 8.5 or 8 1/2");
  const wrong: ParsedLength = {
    ok: false,
    expected: say("a length in {words}, {example}", { words: unit === "mm" ? "mm" : say("inches"), example }),
  };
  const match = /^([-+0-9.,/\s]+?)\s*(mm|cm|inches|inch|in|″|")?$/i.exec(text.trim());
  if (!match) return wrong;
  const [, digits = "", suffix] = match;
  const value = parseNumber(digits, unit === "inch" || suffix !== undefined);
  if (value === undefined) return wrong;
  const scale = suffix === undefined ? (unit === "mm" ? 1 : MM_PER_INCH) : unitScale(suffix.toLowerCase());
  return { ok: true, mm: rounded(value * scale) };
}

/** Read a plain number; `8 1/2` only where fractions are meant. */
export function parseNumber(text: string, fractions = false): number | undefined {
  const normalised = text.trim().replace(",", ".");
  if (/^[-+]?(\d+\.?\d*|\.\d+)$/.test(normalised)) return Number(normalised);
  const match = fractions ? /^([-+]?)(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(normalised) : null;
  if (!match) return undefined;
  const [, sign, whole = "0", above = "0", below = "0"] = match;
  if (Number(below) === 0) return undefined;
  const value = Number(whole) + Number(above) / Number(below);
  return sign === "-" ? -value : value;
}

function unitScale(suffix: string): number {
  if (suffix === "mm") return 1;
  return suffix === "cm" ? 10 : MM_PER_INCH;
}

// A ten-thousandth of a millimetre: far below any workshop's accuracy, and it keeps 8.5 inches at 215.9 mm.
function rounded(mm: number): number {
  return Math.round(mm * 10000) / 10000;
}

/** A number with at most so many decimals and no zeros behind. */
export function trimmed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return decimal(short === "-0" ? "0" : short.replace(/^-/, "−"));
}

/** A share as percent: one decimal below ten percent. */
export function percentShown(share: number): string {
  const percent = share * 100;
  return `${trimmed(percent, percent < 10 ? 1 : 0)} %`;
}

/** Lengths in mm in a sentence of the core, which knows no other unit: also `300 x 200 mm` and `6 to 100 mm`. */
const LENGTHS = /(−?-?\d+(?:[.,]\d+)?)(?:( x | × | to | bis | and | und |, )(\d+(?:[.,]\d+)?))* mm\b/g;

/** A sentence of the core with its lengths in the person's unit. */
export function inUnit(sentence: string, unit: Unit): string {
  const text = typeset(sentence);
  if (unit === "mm") return text;
  return text.replace(LENGTHS, (lengths) =>
    lengths.replace(/ mm$/, " in").replace(/\d+(?:[.,]\d+)?/g, (digits) => {
      const mm = Number(digits.replace(",", "."));
      return trimmed(mm / MM_PER_INCH, mm < 5 ? 3 : 2);
    }),
  );
}
