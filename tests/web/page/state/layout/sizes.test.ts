import { expect, it } from "vitest";
import german from "../../../../../pycore/speech/data/de.json";
import {
  ANSI,
  ISO_A,
  ISO_B,
  isoName,
  type NamedSize,
  ROLLS,
  SHEET_GROUPS,
  SHEETS,
  sheetName,
} from "../../../../../web/src/page/state/layout/sizes";

const measures = (sizes: readonly NamedSize[]) => sizes.map(({ width_mm, height_mm }) => [width_mm, height_mm]);

// Published: ISO 216:2007, tables of the A and the B series, mm.
it("holds the ISO series", () => {
  expect(measures(ISO_A)).toEqual([
    [841, 1189],
    [594, 841],
    [420, 594],
    [297, 420],
    [210, 297],
    [148, 210],
  ]);
  expect(measures(ISO_B)).toEqual([
    [1000, 1414],
    [707, 1000],
    [500, 707],
    [353, 500],
    [250, 353],
    [176, 250],
  ]);
});

it("has German for each group of sheets that no standard names", () => {
  const standards = new Set(["ISO A", "ISO B", "ANSI"]);
  const own = SHEET_GROUPS.map(({ name }) => name).filter((name) => !standards.has(name));
  expect(own.length).toBe(2);
  for (const name of own) expect(german).toHaveProperty([name]);
});

// Derived from ISO 216: each size is the one above halved across its height, rounded down to a whole millimetre.
it.each([
  ["A", ISO_A],
  ["B", ISO_B],
])("the %s series halves from one size to the next", (_, series) => {
  for (const [index, size] of series.entries()) {
    const above = series[index - 1];
    if (above === undefined) continue;
    expect(size.height_mm).toBe(above.width_mm);
    expect(size.width_mm).toBe(Math.floor((above.height_mm ?? 0) / 2));
  }
});

// Published: ANSI/ASME Y14.1, flat sizes A to E: 8.5 x 11, 11 x 17, 17 x 22, 22 x 34, 34 x 44 inches; in mm by the
// inch's definition, 25.4 mm.
it("holds the ANSI sizes", () => {
  expect(measures(ANSI)).toEqual([
    [215.9, 279.4],
    [279.4, 431.8],
    [431.8, 558.8],
    [558.8, 863.6],
    [863.6, 1117.6],
  ]);
});

// Derived: 25.4 mm to the inch.
it("holds the rolls", () => {
  expect(measures(ROLLS)).toEqual(
    [330.2, 406.4, 431.8, 609.6, 914.4, 1066.8, 1117.6, 1524].map((width) => [width, undefined]),
  );
});

it("knows a face by its name either way up", () => {
  expect(isoName(297, 210)).toBe("A4");
  expect(isoName(210, 297)).toBe("A4");
  expect(isoName(500, 353)).toBe("B3");
  expect(isoName(211, 297)).toBeUndefined();
});

it("tells a sheet from a roll of the same width", () => {
  expect(sheetName(329, 483)).toBe("13 × 19 in");
  expect(sheetName(609.6, undefined)).toBe("24 in roll");
  expect(sheetName(329, undefined)).toBeUndefined();
});

it("has one name for one size, and one size for one name", () => {
  expect(new Set(SHEETS.map((size) => size.name)).size).toBe(SHEETS.length);
  for (const { name, width_mm, height_mm } of SHEETS) expect(sheetName(width_mm, height_mm)).toBe(name);
});
