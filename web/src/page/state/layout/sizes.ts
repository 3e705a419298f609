// Sizes that are known by name: ISO 216 (A series, published), and common sheets and rolls (common practice).
export interface NamedSize {
  readonly name: string;
  readonly width_mm: number;
  readonly height_mm?: number;
}

/** ISO 216:2007, trimmed sizes. */
export const ISO_A: readonly NamedSize[] = [
  { name: "A0", width_mm: 841, height_mm: 1189 },
  { name: "A1", width_mm: 594, height_mm: 841 },
  { name: "A2", width_mm: 420, height_mm: 594 },
  { name: "A3", width_mm: 297, height_mm: 420 },
  { name: "A4", width_mm: 210, height_mm: 297 },
  { name: "A5", width_mm: 148, height_mm: 210 },
];

/** What is sold for desk-top printers; common practice, no source. */
export const SHEETS: readonly NamedSize[] = [
  { name: "A4 sheet", width_mm: 210, height_mm: 297 },
  { name: "A3 sheet", width_mm: 297, height_mm: 420 },
  { name: "13 × 19 in sheet", width_mm: 329, height_mm: 483 },
  { name: "A2 sheet", width_mm: 420, height_mm: 594 },
  { name: "17 in roll", width_mm: 431.8 },
  { name: "24 in roll", width_mm: 609.6 },
  { name: "44 in roll", width_mm: 1117.6 },
];

/** The name of a face of this size, either way up. */
export function isoName(width_mm: number, height_mm: number): string | undefined {
  const [short, long] = width_mm < height_mm ? [width_mm, height_mm] : [height_mm, width_mm];
  return ISO_A.find((size) => Math.abs(size.width_mm - short) < 0.5 && Math.abs((size.height_mm ?? 0) - long) < 0.5)
    ?.name;
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
