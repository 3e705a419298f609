import { afterEach, describe, expect, it, vi } from "vitest";
import type { Job, Layout } from "../../../../../web/src/contract/types";
import { regroup, setGroup } from "../../../../../web/src/page/state/work/edit";
import { allFit, behindGaps, onTheWall, picturedSpan } from "../../../../../web/src/page/state/layout/panels";
import { JOB, LAYOUT } from "../../jobs";

const THREE: Job = {
  ...JOB,
  group: { panels: 3, gap_mm: 30, hung: "across", across_gap: "behind" },
};
const DOWN: Job = { ...THREE, group: { ...THREE.group, hung: "down" } };
const JOINED: Job = {
  ...THREE,
  group: { ...THREE.group, across_gap: "joined" },
};

describe("the group in words", () => {
  it("says what it takes of the wall", () => {
    expect(onTheWall({ ...LAYOUT, wall_mm: [692.7, 297.9] }, THREE, "mm")).toBe(
      "With the gaps the three panels take 692.7 × 297.9 mm of the wall.",
    );
    expect(onTheWall(LAYOUT, JOB, "mm")).toBe("One canvas for the whole picture.");
  });

  it("says what lies behind the gaps", () => {
    // Derived: two gaps of 30 mm.
    expect(behindGaps(THREE, "mm")).toContain("60 mm of the picture's width lie behind two gaps");
    expect(behindGaps(DOWN, "mm")).toContain("height");
    expect(behindGaps(JOINED, "mm")).toContain("Nothing");
  });

  it("says how the loaded sheets or roll hold the canvases", () => {
    const one = (panel: number) => ({
      panel,
      position_mm: [0, 0] as [number, number],
    });
    const plan = (...sheets: number[][]): Layout => ({
      ...LAYOUT,
      plan: {
        sheets: sheets.map((sheet) => sheet.map(one)),
        turned: false,
        length_mm: 483,
      },
    });
    expect(allFit(plan([1, 2], [3]), THREE, "mm")).toBe("The three canvases take two sheets: 2, then 1.");
    expect(allFit(plan([1], [2], [3]), THREE, "mm")).toContain("a sheet of its own");
    expect(allFit(plan([1, 2, 3]), THREE, "mm")).toContain("One sheet holds");
    const { height_mm: _height, ...roll } = THREE.sheet;
    expect(allFit(plan([1, 2, 3]), { ...THREE, sheet: roll }, "mm")).toContain("483 mm of the roll");
    // Of one canvas, and of a group of which not even one fits.
    expect(allFit(LAYOUT, JOB, "mm")).toContain("The canvas fits on the sheet");
    expect(allFit({ ...LAYOUT, sheet: { ...LAYOUT.sheet, fits: false, slack_mm: [-5, 9] } }, THREE, "mm")).toBe(
      "The canvas does not fit on the sheet: it is 5 mm too wide.",
    );
  });
});

describe("the group's part of the picture", () => {
  it("spans faces and the gaps that the picture runs on behind", () => {
    // Derived: 3 x 210.9 + 2 x 30 across; 3 x 297.9 + 2 x 30 down; 3 x 210.9 joined.
    expect(picturedSpan(LAYOUT, THREE).width).toBeCloseTo(692.7, 9);
    expect(picturedSpan(LAYOUT, DOWN).height).toBeCloseTo(953.7, 9);
    expect(picturedSpan(LAYOUT, DOWN).width).toBeCloseTo(210.9, 9);
    expect(picturedSpan(LAYOUT, JOINED).width).toBeCloseTo(632.7, 9);
    expect(picturedSpan(LAYOUT, JOB)).toEqual({ width: 210.9, height: 297.9 });
  });

  it("is chosen anew where its shape changes much, and kept where the gap moves", () => {
    const cropped: Job = {
      ...JOB,
      picture: {
        ...JOB.picture,
        crop: { x: 0, y: 0, width: 0.5, height: 0.5 },
      },
    };
    expect(regroup({ panels: 2 })(cropped).picture.crop).toBeUndefined();
    expect(regroup({ panels: 2 })(cropped).group.panels).toBe(2);
    expect(setGroup({ gap_mm: 20 })(cropped).picture.crop).toEqual(cropped.picture.crop);
  });
});

describe("the group in German", () => {
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.resetModules();
  });

  it("says its numbers in German too", async () => {
    vi.stubGlobal("navigator", { languages: ["de-DE"] });
    vi.resetModules();
    const german = await import("../../../../../web/src/page/state/layout/panels");
    expect(german.onTheWall({ ...LAYOUT, wall_mm: [692.7, 297.9] }, THREE, "mm")).toContain("nehmen die drei Tafeln");
    expect(german.behindGaps(THREE, "mm")).toContain("hinter zwei Abständen");
    const sheets = [[1, 2], [3]].map((panels) =>
      panels.map((panel) => ({ panel, position_mm: [0, 0] as [number, number] })),
    );
    const layout: Layout = { ...LAYOUT, plan: { sheets, turned: true, length_mm: 483 } };
    expect(german.allFit(layout, THREE, "mm")).toBe("Die drei Leinwände brauchen zwei Bogen, quer gelegt: 2, dann 1.");
  });
});
