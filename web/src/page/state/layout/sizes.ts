// Sizes that are known by name: ISO 216 and ANSI/ASME Y14.1 (published), common inch sheets and rolls (common practice).
import { MM_PER_INCH } from "../../../units";
import { decimal, say } from "../../../speech/on_page";

export interface NamedSize {
  readonly name: string;
  readonly width_mm: number;
  /** Absent: a roll. */
  readonly height_mm?: number;
}

export interface SizeGroup {
  readonly name: string;
  readonly sizes: readonly NamedSize[];
}

const mm = (name: string, width_mm: number, height_mm: number): NamedSize => ({ name, width_mm, height_mm });

const inches = (width: number, height: number, standard = ""): NamedSize => ({
  name: `${standard}${decimal(String(width))} × ${decimal(String(height))} in`,
  width_mm: inch(width),
  height_mm: inch(height),
});

const roll = (width: number): NamedSize => ({ name: say("{width} in roll", { width }), width_mm: inch(width) });

/** One inch is 25.4 mm exactly; a tenth of a micrometre is no size of paper. */
function inch(length: number): number {
  return Math.round(length * MM_PER_INCH * 1e4) / 1e4;
}

/** ISO 216:2007, trimmed sizes of the A series. */
export const ISO_A: readonly NamedSize[] = [
  mm("A0", 841, 1189),
  mm("A1", 594, 841),
  mm("A2", 420, 594),
  mm("A3", 297, 420),
  mm("A4", 210, 297),
  mm("A5", 148, 210),
];

/** ISO 216:2007, trimmed sizes of the B series. */
export const ISO_B: readonly NamedSize[] = [
  mm("B0", 1000, 1414),
  mm("B1", 707, 1000),
  mm("B2", 500, 707),
  mm("B3", 353, 500),
  mm("B4", 250, 353),
  mm("B5", 176, 250),
];

/** ANSI/ASME Y14.1, flat sizes in inches. */
export const ANSI: readonly NamedSize[] = [
  inches(8.5, 11, "ANSI A, "),
  inches(11, 17, "ANSI B, "),
  inches(17, 22, "ANSI C, "),
  inches(22, 34, "ANSI D, "),
  inches(34, 44, "ANSI E, "),
];

/** Common practice, no source; 13 × 19 in is sold as 329 × 483 mm. */
const INCH_SHEETS: readonly NamedSize[] = [
  inches(8.5, 14),
  inches(12, 12),
  inches(12, 18),
  mm("13 × 19 in", 329, 483),
  inches(16, 20),
  inches(17, 25),
  inches(18, 24),
  inches(20, 24),
  inches(24, 30),
  inches(24, 36),
];

/** Common practice, no source. */
export const ROLLS: readonly NamedSize[] = [13, 16, 17, 24, 36, 42, 44, 60].map(roll);

/** What may be loaded, in the order of the list. */
export const SHEET_GROUPS: readonly SizeGroup[] = [
  { name: "ISO A", sizes: ISO_A },
  { name: "ISO B", sizes: ISO_B },
  { name: "ANSI", sizes: ANSI },
  { name: say("Inch sheets"), sizes: INCH_SHEETS },
  { name: say("Rolls"), sizes: ROLLS },
];

export const SHEETS: readonly NamedSize[] = SHEET_GROUPS.flatMap(({ sizes }) => sizes);

/** The name of a face of this size, either way up. */
export function isoName(width_mm: number, height_mm: number): string | undefined {
  const [short, long] = width_mm < height_mm ? [width_mm, height_mm] : [height_mm, width_mm];
  return [...ISO_A, ...ISO_B].find(
    (size) => Math.abs(size.width_mm - short) < 0.5 && Math.abs((size.height_mm ?? 0) - long) < 0.5,
  )?.name;
}

/** The named sheet or roll of these measures. */
export function sheetName(width_mm: number, height_mm: number | undefined): string | undefined {
  return SHEETS.find(
    (size) =>
      Math.abs(size.width_mm - width_mm) < 0.05 &&
      (size.height_mm === undefined) === (height_mm === undefined) &&
      Math.abs((size.height_mm ?? 0) - (height_mm ?? 0)) < 0.05,
  )?.name;
}
