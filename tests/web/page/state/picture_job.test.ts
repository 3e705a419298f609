import { describe, expect, it } from "vitest";
import { fileName, stem, withPicture } from "../../../../web/src/page/state/picture_job";
import { JOB } from "../jobs";

describe("files", () => {
  it("are named as any disk takes it", () => {
    expect(fileName("The Ebbing Field, Merrowmouth")).toBe("The Ebbing Field, Merrowmouth");
    expect(fileName('a/b\\c:d*"?')).toBe("a-b-c-d-");
    expect(fileName("..hidden")).toBe("hidden");
    expect(fileName("   ")).toBe("canvas");
    expect(fileName("x".repeat(300)).length).toBe(80);
  });

  it("lend their name to the job without the ending", () => {
    expect(stem("low tide.final.jpg")).toBe("low tide.final");
    expect(stem(".jpg")).toBe(".jpg");
  });

  it("begin a new job where the demo was shown", () => {
    const fresh = { ...JOB, name: "", face: { width_mm: 400, height_mm: 300 } };
    const work = withPicture({ ...JOB, client: "Lindqvarn House" }, fresh, "dune.png", 7);
    expect(work.job.name).toBe("dune");
    expect(work.job.client).toBe("");
    expect(work).toMatchObject({ picture: 7, demo: false });
  });

  it("keep the canvas profile that was opened while the demo was in hand", () => {
    const now = { ...JOB, colour: { ...JOB.colour, profile: "studio.icc", bring_in: 1 } };
    expect(withPicture(now, JOB, "dune.png", 7).job.colour).toEqual({ ...JOB.colour, profile: "studio.icc" });
  });

  it("go on with a job of one's own, the window chosen anew for another picture", () => {
    const cropped = { ...JOB, picture: { ...JOB.picture, crop: { x: 0, y: 0, width: 0.5, height: 0.5 } } };
    expect(withPicture(cropped, undefined, "dune.png", 2).job.picture).toEqual({ file: "dune.png", turn: 0, enlarging: "photograph" });
  });

  it("keep window and turn where the job names this very picture", () => {
    const cropped = {
      ...JOB,
      picture: { ...JOB.picture, turn: 90 as const, crop: { x: 0, y: 0, width: 0.5, height: 0.5 } },
    };
    expect(withPicture(cropped, undefined, "tide.jpg", 2).job.picture).toEqual(cropped.picture);
  });
});
