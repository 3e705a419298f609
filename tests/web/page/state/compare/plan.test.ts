import { describe, expect, it } from "vitest";
import {
  choicesOf,
  comparisonKey,
  countWrong,
  depthsText,
  faceOf,
  fillAll,
  parseDepths,
  parseSizes,
  sizesText,
  type Plan,
  usualDepths,
  usualSizes,
} from "../../../../../web/src/page/state/compare/plan";
import type { Job } from "../../../../../web/src/contract/types";
import { JOB } from "../../jobs";

const made = (plan: Plan, job: Job = JOB) => choicesOf(plan, "mm", (name) => name).map(({ change }) => change(job));

describe("choicesOf", () => {
  it("changes one thing of the job in each way", () => {
    expect(made({ kind: "depth", values: usualDepths("mm") }).map(({ bars }) => bars.depth_mm)).toEqual([18, 38, 50]);
    expect(made({ kind: "finish", values: ["tucked", "trimmed"] }).map(({ wrap }) => wrap.finish)).toEqual([
      "tucked",
      "trimmed",
    ]);
    expect(made({ kind: "profile", values: ["a.icc", "b.icc"] }).map(({ colour }) => colour.profile)).toEqual([
      "a.icc",
      "b.icc",
    ]);
    expect(made({ kind: "bring-in", values: [0, 1] }).map(({ colour }) => colour.bring_in)).toEqual([0, 1]);
    for (const job of made({ kind: "depth", values: [18, 50] })) expect({ ...job, bars: JOB.bars }).toEqual(JOB);
  });

  it("calls each by its word, lengths in the page's unit", () => {
    const words = (plan: Plan, unit: "mm" | "inch") =>
      choicesOf(plan, unit, (name) => `${name}!`).map((one) => one.label);
    expect(words({ kind: "depth", values: [18, 38.1] }, "mm")).toEqual(["18 mm", "38.1 mm"]);
    // Derived: 38.1 / 25.4 = 1.5.
    expect(words({ kind: "depth", values: [38.1] }, "inch")).toEqual(["1.5 in"]);
    expect(words({ kind: "fill", values: ["drawn-out"] }, "mm")).toEqual(["Edge drawn out"]);
    expect(words({ kind: "finish", values: ["lapped"] }, "mm")).toEqual(["Lapped"]);
    expect(words({ kind: "profile", values: ["a.icc"] }, "mm")).toEqual(["a.icc!"]);
    expect(words({ kind: "bring-in", values: [0, 0.5, 1] }, "mm")).toEqual([
      "Nothing brought in",
      "50 % brought in",
      "All brought in",
    ]);
  });

  it("gives every side the fill, and lets a side keep what else it has", () => {
    const job: Job = {
      ...JOB,
      sides: {
        ...JOB.sides,
        left: { fill: "plain", colour: "#112233" },
        top: { fill: "fade" },
      },
    };
    const { sides } = fillAll("run-on")(job);
    expect(sides).toEqual({
      ...JOB.sides,
      fill: "run-on",
      left: { colour: "#112233" },
    });
    expect(job.sides.left?.fill).toBe("plain");
  });
});

describe("depths", () => {
  it("are read back as they are written", () => {
    expect(depthsText([18, 38.5, 50], "mm")).toBe("18, 38.5, 50");
    expect(depthsText(usualDepths("inch"), "inch")).toBe("0.75, 1.5, 2");
    expect(parseDepths("18, 38.5,50 ", "mm")).toEqual({
      ok: true,
      values: [18, 38.5, 50],
    });
  });

  it("may have decimal commas with semicolons between them, and their own unit", () => {
    expect(parseDepths("18; 38,5; 5 cm", "mm")).toEqual({
      ok: true,
      values: [18, 38.5, 50],
    });
    expect(parseDepths("1 1/2, 3/4", "inch")).toEqual({
      ok: true,
      values: [38.1, 19.05],
    });
  });

  it("name the part that is no length", () => {
    expect(parseDepths("18, deep, 50", "mm")).toEqual({
      ok: false,
      got: "deep",
    });
    expect(parseDepths("", "mm")).toEqual({ ok: true, values: [] });
  });
});

describe("sizes", () => {
  it("are read back as they are written, in either unit", () => {
    const sizes = ["200x133.5", "300x200"];
    for (const unit of ["mm", "inch"] as const) {
      const read = parseSizes(sizesText(sizes, unit), unit);
      expect(read.ok && read.values.map((size) => Math.round(faceOf(size).width_mm))).toEqual([200, 300]);
    }
    expect(parseSizes("8 1/2 x 11, 20 cm × 10 cm", "inch")).toEqual({ ok: true, values: ["215.9x279.4", "200x100"] });
  });

  it("name the part that is none", () => {
    expect(parseSizes("300x200, 400", "mm")).toEqual({ ok: false, got: "400" });
    expect(parseSizes("300x200x20", "mm")).toEqual({ ok: false, got: "300x200x20" });
  });

  it("are the face itself between a smaller and a larger one, and change the face alone", () => {
    // Derived: two thirds and three halves of 300 x 200, to 10 mm.
    const values = usualSizes({ width_mm: 300, height_mm: 200 }, "mm");
    expect(values).toEqual(["200x133", "300x200", "450x300"]);
    // Derived: two thirds of 18 in are 12 in, three halves 27 in, and both of a shape of 2 to 3.
    expect(usualSizes({ width_mm: 304.8, height_mm: 457.2 }, "inch")).toEqual([
      "203.2x304.8",
      "304.8x457.2",
      "457.2x685.8",
    ]);
    expect(usualSizes({ width_mm: 60, height_mm: 50 }, "mm")).toEqual(["50x50", "60x50", "90x75"]);
    for (const job of made({ kind: "size", values })) expect({ ...job, face: JOB.face }).toEqual(JOB);
  });
});

describe("countWrong", () => {
  it("takes two to four", () => {
    for (const count of [2, 3, 4]) {
      expect(
        countWrong({
          kind: "depth",
          values: Array.from({ length: count }, (_, i) => 18 + i),
        }),
      ).toBeUndefined();
    }
  });

  it("refuses fewer and more in the user's words", () => {
    expect(countWrong({ kind: "fill", values: ["run-on"] })).toEqual({
      field: "sides.fill",
      message: "Side fill must be 2 to 4 fills for a comparison; you gave 1.",
      remedy: "add another",
    });
    expect(countWrong({ kind: "depth", values: [1, 2, 3, 4, 5] })?.remedy).toContain("leave some out");
  });
});

describe("comparisonKey", () => {
  it("stays while words and print file change, and no longer", () => {
    const key = comparisonKey([JOB], [1]);
    expect(comparisonKey([{ ...JOB, name: "High tide", print: { ...JOB.print, marks: false } }], [1])).toBe(key);
    expect(comparisonKey([{ ...JOB, sheet: { ...JOB.sheet, width_mm: 420 } }], [1])).not.toBe(key);
    expect(comparisonKey([JOB], [2])).not.toBe(key);
  });
});
