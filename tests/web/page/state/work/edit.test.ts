import { describe, expect, it } from "vitest";
import {
  setCrop,
  setMargin,
  setSheet,
  setSide,
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

  it("exchange width and height of the face", () => {
    expect(swapFace(JOB).face).toEqual({ width_mm: 297, height_mm: 210 });
  });
});
