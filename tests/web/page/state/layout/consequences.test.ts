import { afterEach, describe, expect, it } from "vitest";
import german from "../../../../../pycore/speech/data/de.json";
import { speak } from "../../../../../web/src/speech/say";
import {
  bulky,
  bytesShown,
  canvasCut,
  cutAway,
  deepestBar,
  faceSize,
  depthOf,
  enlargement,
  filePixels,
  fineness,
  measuredOnPrint,
  pictureShares,
  sheetFit,
  stretched,
  takeUp,
  widestTurnover,
} from "../../../../../web/src/page/state/layout/consequences";
import { JOB, LAYOUT } from "../../jobs";

afterEach(() => speak("en", {}));

const sheet = (part: Partial<typeof LAYOUT.sheet>) => ({
  ...LAYOUT,
  sheet: { ...LAYOUT.sheet, ...part },
});

describe("consequences beside the controls", () => {
  it("names a face that has a name, and its size in the other unit", () => {
    // Published: ISO 216, A4 is 210 x 297 mm.
    expect(faceSize(JOB, "mm")).toBe("That is A4 (ISO 216), 8.27 × 11.69 in.");
    expect(faceSize({ ...JOB, face: { width_mm: 254, height_mm: 203.2 } }, "mm")).toBe("That is 10 × 8 in.");
  });

  it("rounds what fits down, never up", () => {
    expect(deepestBar(LAYOUT, JOB, "mm")).toBe("This sheet holds bars up to 34 mm deep.");
    expect(deepestBar(sheet({ largest_depth_mm: 34.19 }), JOB, "mm")).toBe("This sheet holds bars up to 34.1 mm deep.");
    // Derived: 34.05 / 25.4 = 1.3405.
    expect(deepestBar(LAYOUT, JOB, "inch")).toBe("This sheet holds bars up to 1.34 in deep.");
  });

  it("says how wide a turn-over may be", () => {
    expect(widestTurnover(sheet({ largest_turnover_mm: 42.95 }), JOB, "mm")).toBe(
      "This sheet holds a turn-over up to 42.9 mm.",
    );
  });

  it("says plainly when no bar would fit", () => {
    const { largest_depth_mm: _none, ...without } = LAYOUT.sheet;
    expect(deepestBar({ ...LAYOUT, sheet: without }, JOB, "mm")).toBe(
      "No bar depth fits on this sheet with this face and this turn-over.",
    );
  });

  it("judges the pixels at the edges of the rules of thumb", () => {
    const ppi = (effective_ppi: number) =>
      fineness({
        ...LAYOUT,
        ...(LAYOUT.use ? { use: { ...LAYOUT.use, effective_ppi } } : {}),
      })?.text;
    // Common practice, from memory: 150 and more is enough, 100 to 150 is soft.
    expect(ppi(150)).toContain("enough");
    expect(ppi(149.9)).toContain("soft");
    expect(ppi(100)).toContain("soft");
    expect(ppi(99.9)).toContain("too few");
    // A limit that is just missed is not shown as reached.
    expect(ppi(149.9)).toContain("149 picture pixels");
    expect(ppi(99.9)).toContain("99 picture pixels");
    expect(fineness(LAYOUT)?.practice).toContain("from memory");
  });

  it("says what is cut away and what goes round", () => {
    expect(cutAway(LAYOUT)).toBe("20 % of the picture is cropped away.");
    expect(pictureShares(LAYOUT)).toBe("The sides take 0 % of the picture; 20 % is cropped away.");
  });

  it("gives slack and shortfall on each axis", () => {
    expect(sheetFit(LAYOUT, JOB, "mm")).toBe("The canvas fits on the sheet: 28.1 mm to spare across, 95.1 mm down.");
    expect(sheetFit(sheet({ fits: false, turned: true, slack_mm: [-12.4, 3] }), JOB, "mm")).toBe(
      "The canvas does not fit on the sheet, turned sideways: it is 12.4 mm too wide.",
    );
    expect(sheetFit(sheet({ fits: false, ink_slack_mm: [-2, 5] }), JOB, "mm")).toBe(
      "The print does not fit between the margins of the sheet: 2 mm across too much.",
    );
    speak("de", german);
    expect(sheetFit(sheet({ fits: false, ink_slack_mm: [-2, -5] }), JOB, "mm")).toBe(
      "Der Druck passt nicht zwischen die Ränder des Bogens: 2 mm in der Breite und 5 mm in der Höhe zu viel.",
    );
  });

  it("speaks of a roll where one is loaded", () => {
    const roll = {
      ...JOB,
      sheet: { width_mm: 329, margin_mm: JOB.sheet.margin_mm },
    };
    expect(sheetFit(sheet({ length_mm: 387.9, slack_mm: [28.1, 0] }), roll, "mm")).toBe(
      "The canvas fits on the roll: 28.1 mm to spare across; it takes 387.9 mm of the roll.",
    );
    expect(deepestBar(LAYOUT, roll, "mm")).toContain("This roll holds");
  });

  it("states take-up, stretch and what is cut", () => {
    expect(takeUp(JOB, "mm")).toBe(
      "Allowance for the canvas's thickness: the printed face is 0.9 mm larger than the wood, each way.",
    );
    expect(stretched(LAYOUT, JOB, "mm")).toBe("Printed at full size.");
    const pulled = {
      ...JOB,
      canvas: { ...JOB.canvas, stretch_percent: [2, 1] as [number, number] },
    };
    // Derived: 210.9 / 1.02 = 206.76, 297.9 / 1.01 = 294.95; 4.1 and 2.9 mm less.
    const printed = {
      ...LAYOUT,
      flat: {
        ...LAYOUT.flat,
        face_zone_mm: [210.9 / 1.02, 297.9 / 1.01] as [number, number],
      },
    };
    expect(stretched(printed, pulled, "mm")).toBe(
      "The face is printed 4.1 mm narrower and 2.9 mm shorter, and pulled to size.",
    );
    expect(canvasCut(LAYOUT, "mm")).toBe("The canvas is cut to 300.9 × 387.9 mm and weighs 44 g, the canvas alone.");
    expect(canvasCut({ ...LAYOUT, wall_mm: [900, 200] }, "mm")).toMatch(/^Each panel's canvas is cut to /u);
  });

  it("lists only places with more than one layer", () => {
    const bulk = [
      { place: "face", layers: 1, thickness_mm: 0.45 },
      { place: "folded corner", layers: 3, thickness_mm: 1.35 },
    ];
    expect(bulky(bulk, "mm")).toBe("folded corner: 3 layers, 1.35 mm.");
    expect(bulky(bulk.slice(0, 1), "mm")).toBe("");
  });

  it("says what to measure on the print, with and without marks", () => {
    // Derived: 210 and 297 mm of wood with 0.45 mm of canvas on either side.
    expect(measuredOnPrint(LAYOUT, JOB, "mm")).toBe(
      "Measure the print: the printed face is 210.9 × 297.9 mm and the fold ticks, where the print has them, " +
        "stand as far apart. If not, something has scaled the file.",
    );
    const bare = { ...JOB, print: { ...JOB.print, marks: false } };
    expect(measuredOnPrint(LAYOUT, bare, "inch")).toBe(
      "Measure the print: the printed face is 8.3 × 11.73 in. If not, something has scaled the file.",
    );
  });

  it("counts the file's pixels as the core does: a half upwards", () => {
    // Derived: 300.9 / 25.4 x 300 = 3553.9, 387.9 / 25.4 x 300 = 4581.5 (4581.496); 3554 x 4581 x 3 = 48.8 MB.
    expect(filePixels(LAYOUT, JOB)).toBe("3554 × 4581 pixels, 16 million; 49 MB uncompressed.");
  });

  it("says by how much the picture is enlarged", () => {
    // Derived: 300 ppi in the file; the picture's own on the face are 100, 290, 300 and 450.
    const use = LAYOUT.use;
    if (use === undefined) throw new Error("no picture");
    const of = (effective_ppi: number) => enlargement({ ...LAYOUT, use: { ...use, effective_ppi } }, JOB);
    expect(of(100)).toBe("The picture is enlarged 3 times.");
    expect(of(290)).toBe("The picture is enlarged 1.03 times.");
    expect(of(300)).toBe("The picture has just as many pixels as the print file takes.");
    expect(of(450)).toBe("The picture has more pixels than the print file takes; it is reduced, not enlarged.");
    const { use: _none, ...without } = LAYOUT;
    expect(enlargement(without, JOB)).toBeUndefined();
  });

  it("says that a JPEG has 8 bits only where 16 are asked for", () => {
    const deep = { ...JOB, print: { ...JOB.print, bits: 16 as const } };
    expect(depthOf(deep, "jpeg")).toContain("choose TIFF, PNG or PDF");
    expect([depthOf(deep, "tiff"), depthOf(deep, "pdf"), depthOf(JOB, "jpeg")]).toEqual(Array(3).fill(undefined));
  });

  it("writes bytes in the unit that suits them", () => {
    expect(bytesShown(512)).toBe("1 kB");
    expect(bytesShown(2_450_000)).toBe("2.5 MB");
    expect(bytesShown(1_234_000_000)).toBe("1.23 GB");
  });
});
