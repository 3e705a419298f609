// How large a sheet, or a length of a roll, is drawn, and the letters on it. Pure.

/** A letter's height, and how many of them make the width of the column. */
const LETTER_REM = 0.86;
const COLUMN_LETTERS = 26;

/** How high a sheet is drawn at most, in rem: a long piece of a roll so high that its words can be read. */
export function highestRem(width_mm: number, height_mm: number): number {
  return Math.min(Math.max(32, (10 * height_mm) / width_mm), 120);
}

/** A letter's height in mm of the sheet: the same on the screen, whether the column's width or the height is the limit. */
export function letterHeight(width_mm: number, height_mm: number): number {
  return Math.max(width_mm / COLUMN_LETTERS, (LETTER_REM * height_mm) / highestRem(width_mm, height_mm));
}
