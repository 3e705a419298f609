import { expect, it } from "vitest";
import { ISO_A, isoName, SHEETS, sheetName } from "../../../../../web/src/page/state/layout/sizes";

// Derived from ISO 216: each size is the one above halved across its height, rounded down to a whole millimetre.
it("holds the A series, each half of the one before", () => {
  for (const [index, size] of ISO_A.entries()) {
    const above = ISO_A[index - 1];
    if (above === undefined) continue;
    expect(size.height_mm).toBe(above.width_mm);
    expect(size.width_mm).toBe(Math.floor((above.height_mm ?? 0) / 2));
  }
});

it("knows a face by its name either way up", () => {
  expect(isoName(297, 210)).toBe("A4");
  expect(isoName(210, 297)).toBe("A4");
  expect(isoName(211, 297)).toBeUndefined();
});

it("tells a sheet from a roll of the same width", () => {
  expect(sheetName(329, 483)).toBe("13 × 19 in sheet");
  expect(sheetName(609.6, undefined)).toBe("24 in roll");
  expect(sheetName(329, undefined)).toBeUndefined();
  expect(new Set(SHEETS.map((size) => size.name)).size).toBe(SHEETS.length);
});
