import { describe, expect, it } from "vitest";
import {
  changesTo,
  setBars,
  setCrop,
  setFace,
  setMargin,
  setSheet,
  setSheetHeight,
  setSheetWidth,
  setSide,
  setSideOwn,
  setSidePart,
  setSides,
  setStretch,
  setText,
  setWrap,
  swapFace,
  turnPicture,
} from "../../../../../web/src/page/state/work/edit";
import { JOB } from "../../jobs";

const CROP = { x: 0.1, y: 0.1, width: 0.5, height: 0.5 };

describe("changes of the job", () => {
  it("change one part and share the others", () => {
    const job = setWrap({ finish: "lapped" })(JOB);
    expect(job.wrap).toEqual({ ...JOB.wrap, finish: "lapped" });
    expect(job.sides).toBe(JOB.sides);
  });

  it("leave a field out where it is absent, instead of writing nothing into it", () => {
    expect(Object.keys(setCrop(undefined)(setCrop(CROP)(JOB)).picture)).toEqual([
      "file",
      "sha256",
      "turn",
      "enlarging",
    ]);
    expect("height_mm" in setSheet(610, undefined)(JOB).sheet).toBe(false);
    expect("left" in setSide("left", undefined)(setSide("left", { fill: "plain" })(JOB)).sides).toBe(false);
  });

  it("turn the picture through four quarters back to where it was, with the window chosen anew", () => {
    const once = turnPicture(setCrop(CROP)(JOB));
    expect(once.picture).toEqual({
      file: "tide.jpg",
      sha256: "",
      turn: 90,
      enlarging: "photograph",
    });
    expect(turnPicture(turnPicture(turnPicture(once))).picture.turn).toBe(0);
  });

  it("set one margin in the order top, right, bottom, left", () => {
    expect(setMargin(2, 14)(JOB).sheet.margin_mm).toEqual([3, 3, 14, 3]);
  });

  it("change one of two values that stand side by side, whatever became of the other meanwhile", () => {
    expect(setSheetHeight(700)(setSheetWidth(500)(JOB)).sheet).toMatchObject({ width_mm: 500, height_mm: 700 });
    expect(setSheetHeight(700)(setSheet(610, undefined)(JOB)).sheet).toEqual(setSheet(610, undefined)(JOB).sheet);
    expect(setStretch(1, 2)(setStretch(0, 1)(JOB)).canvas.stretch_percent).toEqual([1, 2]);
    const own = setSideOwn("left", true)(setSides({ fill: "plain" })(JOB));
    expect(setSidePart("left", { blur_mm: 2 })(setSidePart("left", { fill: "fade" })(own)).sides.left).toEqual({
      fill: "fade",
      blur_mm: 2,
    });
    expect(setSidePart("left", { blur_mm: 2 })(setSideOwn("left", false)(own)).sides.left).toBeUndefined();
  });

  it("that the core has made of a job leave what has changed since, and take what they were about", () => {
    const roll = setSheet(610, undefined)(setText({ answer: "Yes." })(setBars({ depth_mm: 30 })(JOB)));
    const gone = setBars({ width_mm: 50 })(setFace({ width_mm: 333 })(JOB));
    const made = changesTo(JOB, roll)(gone);
    expect(made.face.width_mm).toBe(333);
    expect(made.bars).toEqual({ ...JOB.bars, depth_mm: 30, width_mm: 50 });
    expect(made.answer).toBe("Yes.");
    expect(JSON.parse(JSON.stringify(made.sheet))).toEqual(roll.sheet);
  });

  it("exchange width and height of the face", () => {
    expect(swapFace(JOB).face).toEqual({ width_mm: 297, height_mm: 210 });
  });
});
