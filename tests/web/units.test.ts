import { describe, expect, it } from "vitest";
import {
  inUnit,
  lengthShown,
  lengthStep,
  lengthText,
  parseLength,
  parseNumber,
  percentShown,
  sizeShown,
  trimmed,
} from "../../web/src/units";

describe("lengths that are typed", () => {
  // Published: 1 inch = 25.4 mm exactly (international yard and pound agreement, 1959). Derived from it: 8.5 x 25.4.
  it.each([
    ["297", "mm", 297],
    [" 38.5 ", "mm", 38.5],
    ["38,5", "mm", 38.5],
    ["8.5", "inch", 215.9],
    ["8 1/2", "inch", 215.9],
    ["3/4", "inch", 19.05],
    ["11 3/4", "inch", 298.45],
    ["8 1/2 in", "mm", 215.9],
    ['13"', "mm", 330.2],
    ["32.9 cm", "inch", 329],
    ["329mm", "inch", 329],
  ] as const)("%s with the page in %s is %d mm", (text, unit, mm) => {
    expect(parseLength(text, unit)).toEqual({ ok: true, mm });
  });

  it.each(["", "wide", "8 1/", "1/0", "--3", "3 4", "1e3", "NaN", "Infinity", "12 furlongs", "8 1/2 3/4"])(
    "%j is no length, and the message says what would be one",
    (text) => {
      const parsed = parseLength(text, "inch");
      expect(parsed).toEqual({
        ok: false,
        expected: "a length in inches, for example 8.5 or 8 1/2",
      });
    },
  );

  it("takes no fraction of a millimetre, where nobody writes one", () => {
    expect(parseLength("8 1/2", "mm")).toEqual({
      ok: false,
      expected: "a length in mm, for example 297 or 38.5",
    });
  });

  it("keeps the sign, so that the core can say what it thinks of it", () => {
    expect(parseLength("-5", "mm")).toEqual({ ok: true, mm: -5 });
    expect(parseNumber("-1 1/2", true)).toBe(-1.5);
  });
});

describe("lengths that are shown", () => {
  it("writes the shortest text that reads back as the same length", () => {
    for (const mm of [6, 38, 210, 297, 329, 483, 0.45, 12.7, 609.6]) {
      expect(parseLength(lengthText(mm, "mm"), "mm")).toEqual({ ok: true, mm });
    }
    expect(lengthText(215.9, "inch")).toBe("8.5");
  });

  it("names the unit and drops digits that no eye uses", () => {
    expect([lengthShown(297, "mm"), lengthShown(215.9, "inch")]).toEqual(["297 mm", "8.5 in"]);
    expect(lengthShown(34.05, "mm")).toBe("34 mm");
    expect(lengthShown(34.16, "mm")).toBe("34.2 mm");
    expect(lengthShown(330.2, "inch")).toBe("13 in");
    expect(sizeShown(210, 297, "mm")).toBe("210 × 297 mm");
    // Derived: 210 / 25.4 = 8.268, 297 / 25.4 = 11.693.
    expect(sizeShown(210, 297, "inch")).toBe("8.27 × 11.69 in");
  });

  it("steps by a millimetre or an eighth of an inch", () => {
    expect(lengthStep("mm")).toBe(1);
    expect(lengthStep("inch")).toBe(3.175);
  });

  it("writes numbers and shares without needless zeros, and no minus before nothing", () => {
    expect(trimmed(3.1, 2)).toBe("3.1");
    expect(trimmed(100, 0)).toBe("100");
    expect(trimmed(-0.001, 2)).toBe("0");
    expect(trimmed(-2.5, 1)).toBe("−2.5");
    expect(percentShown(0)).toBe("0 %");
    expect(percentShown(0.0312)).toBe("3.1 %");
    expect(percentShown(0.3149)).toBe("31 %");
  });
});

describe("a sentence of the core", () => {
  it("is told in the person's unit, single lengths, sizes, ranges and lists", () => {
    expect(inUnit("Bars of 25.4 mm bend.", "mm")).toBe("Bars of 25.4 mm bend.");
    // Derived: / 25.4.
    expect(inUnit("Bars of 25.4 mm bend.", "inch")).toBe("Bars of 1 in bend.");
    expect(inUnit("a face of 254 x 381 mm", "inch")).toBe("a face of 10 × 15 in");
    expect(inUnit("6.35 to 127 mm", "inch")).toBe("0.25 to 5 in");
    expect(inUnit("18, 38.1 and 50.8 mm are usual", "inch")).toBe("0.71, 1.5 and 2 in are usual");
    expect(inUnit("a canvas of 0.45 mm", "inch")).toBe("a canvas of 0.018 in");
  });

  it("keeps numbers that are no lengths", () => {
    const text = "The face gets 4 picture pixels per inch; 5 layers lie there, 2.54 mm.";
    expect(inUnit(text, "inch")).toBe("The face gets 4 picture pixels per inch; 5 layers lie there, 0.1 in.");
  });
});
