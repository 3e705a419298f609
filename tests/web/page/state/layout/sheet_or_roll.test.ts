import { expect, it } from "vitest";
import { SheetMemory } from "../../../../../web/src/page/state/layout/sheet_or_roll";
import { JOB } from "../../jobs";

it("a roll and back leaves the sheet as it was", () => {
  const memory = new SheetMemory();
  const roll = memory.load("roll", JOB)(JOB);
  expect(roll.sheet).toEqual({ width_mm: 330.2, margin_mm: JOB.sheet.margin_mm });
  const wide = { ...roll, sheet: { ...roll.sheet, width_mm: 610 } };
  const sheet = memory.load("sheet", wide)(wide);
  expect(sheet).toEqual(JOB);
  expect(memory.load("roll", sheet)(sheet)).toEqual(wide);
});

it("a first roll is the narrowest usual one that the sheet's width fits on", () => {
  const first = (width_mm: number): number => {
    const job = { ...JOB, sheet: { ...JOB.sheet, width_mm } };
    return new SheetMemory().load("roll", job)(job).sheet.width_mm;
  };
  expect([210, 330.2, 331, 610, 1600].map(first)).toEqual([330.2, 330.2, 406.4, 609.6, 1600]);
});

it("a job that came with a roll gets the usual sheet", () => {
  const roll = {
    ...JOB,
    sheet: { width_mm: 610, margin_mm: JOB.sheet.margin_mm },
  };
  expect(new SheetMemory().load("sheet", roll)(roll).sheet).toMatchObject({
    width_mm: 329,
    height_mm: 483,
  });
});

it("what is loaded stays when it is chosen again", () => {
  expect(new SheetMemory().load("sheet", JOB)(JOB)).toBe(JOB);
});
