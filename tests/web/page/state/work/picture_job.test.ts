import { describe, expect, it } from "vitest";
import {
  fitted,
  isFaceOpen,
  openedJob,
  type Start,
  withOffered,
  withPicture,
} from "../../../../../web/src/page/state/work/picture_job";
import { keepPicture, NO_PICTURE } from "../../../../../web/src/page/state/work/pictures";
import type { Work } from "../../../../../web/src/page/state/work/work";
import { JOB } from "../../jobs";

const file = (name: string, sha256 = "") => ({
  name,
  blob: new Blob([name]),
  sha256,
});
const DUNE = file("dune.png", "dd");
const TIDE = file("tide.jpg", "aa");
const OWN: Work = { job: JOB, picture: 1, demo: false };

describe("a first picture", () => {
  const demo = {
    ...JOB,
    name: "The demo",
    client: "Lindqvarn House",
    bars: { ...JOB.bars, depth_mm: 32 },
  };
  const start: Start = { fresh: { ...JOB, name: "" }, demo };

  it("begins a job of one's own, of which only the picture is set", () => {
    const work = withPicture({ job: demo, picture: 1, demo: true }, DUNE, 7, start);
    expect(work).toEqual({
      job: {
        ...JOB,
        name: "dune",
        picture: {
          file: "dune.png",
          sha256: "dd",
          turn: 0,
          enlarging: "photograph",
        },
      },
      picture: 7,
      demo: false,
    });
  });

  it("keeps what was set on the demo: sheet, bars, sides, name and canvas profile", () => {
    const set = {
      ...demo,
      name: "Mine",
      bars: { ...JOB.bars, depth_mm: 44 },
      sheet: { ...JOB.sheet, width_mm: 610 },
      sides: { ...JOB.sides, fill: "plain" as const },
      colour: { ...JOB.colour, profile: "studio.icc" },
    };
    const { job } = withPicture({ job: set, picture: 1, demo: true }, DUNE, 7, start);
    expect(job).toMatchObject({
      name: "Mine",
      client: "",
      bars: { ...JOB.bars, depth_mm: 44 },
      sheet: { width_mm: 610 },
      sides: { fill: "plain" },
      colour: { profile: "studio.icc" },
    });
  });

  it("may have a face proposed unless the person has set one", () => {
    const now: Work = { job: demo, picture: 1, demo: true };
    expect(isFaceOpen(now, start)).toBe(true);
    expect(isFaceOpen({ ...now, job: { ...demo, face: { width_mm: 400, height_mm: 300 } } }, start)).toBe(false);
  });
});

describe("another picture in a job of one's own", () => {
  const cropped: Work = {
    ...OWN,
    job: {
      ...JOB,
      picture: {
        file: "tide.jpg",
        sha256: "aa",
        turn: 90,
        enlarging: "drawing",
        crop: { x: 0, y: 0, width: 0.5, height: 0.5 },
      },
    },
  };

  it("drops crop and turn, which were the former one's", () => {
    expect(withPicture(cropped, DUNE, 2, undefined).job.picture).toEqual({
      file: "dune.png",
      sha256: "dd",
      turn: 0,
      enlarging: "photograph",
    });
  });

  it("of the same content keeps them, whatever it is called", () => {
    const { job } = withPicture(cropped, file("copy of tide.jpg", "aa"), 2, undefined);
    expect(job.picture).toEqual({
      ...cropped.job.picture,
      file: "copy of tide.jpg",
    });
  });

  it("drops the fills of single sides, which suited the former one's edges, but not that of all", () => {
    const sides = {
      ...JOB.sides,
      fill: "plain" as const,
      top: { fill: "mirror" as const },
    };
    const { job } = withPicture({ ...OWN, job: { ...JOB, sides } }, DUNE, 2, undefined);
    expect(job.sides).toEqual({ ...JOB.sides, fill: "plain" });
  });

  it("goes into a job that names none as into a pattern, and drops nothing of it", () => {
    const pattern = {
      ...cropped.job,
      picture: { ...cropped.job.picture, file: "", sha256: "" },
    };
    const before = { ...cropped, job: pattern, picture: NO_PICTURE };
    const after = withPicture(before, DUNE, 2, undefined);
    expect(after.job.picture).toEqual({
      ...pattern.picture,
      file: "dune.png",
      sha256: "dd",
    });
    expect(fitted(before, after, undefined, { width_px: 90, height_px: 60 })).toEqual({ work: after, goesOn: false });
  });

  describe("of the same name and other content", () => {
    const before: Work = {
      ...cropped,
      job: { ...cropped.job, sides: { ...JOB.sides, left: { fill: "plain" } } },
    };
    const after = withPicture(before, file("tide.jpg", "bb"), 2, undefined);
    const size = { width_px: 90, height_px: 60 };

    it("is the former one retouched where it has its size: what was set for that stays, and is told", () => {
      const { work, goesOn, told } = fitted(before, after, size, { ...size });
      expect(work.job.picture).toEqual({ ...before.job.picture, sha256: "bb" });
      expect(work.job.sides).toEqual(before.job.sides);
      expect(work.picture).toBe(2);
      expect(goesOn).toBe(true);
      expect(told).toBe(
        "tide.jpg takes the place of the former picture of that name; the job keeps the crop, the rotation, " +
          "the way of enlarging and the fills of single sides.",
      );
    });

    it("is another one where it has another size", () => {
      const { work, goesOn, told } = fitted(before, after, size, {
        width_px: 60,
        height_px: 90,
      });
      expect(work.job.picture).toEqual({
        file: "tide.jpg",
        sha256: "bb",
        turn: 0,
        enlarging: "photograph",
      });
      expect(work.job.sides).toEqual(JOB.sides);
      expect(goesOn).toBe(false);
      expect(told).toBe(
        "tide.jpg is another picture, so the job drops the crop, the rotation, " +
          "the way of enlarging and the fills of single sides of the former one.",
      );
    });

    it("takes the place of one that is not at hand, as on the command line", () => {
      const lacking = {
        ...before,
        picture: NO_PICTURE,
        offered: keepPicture(file("tide.jpg", "bb")),
      };
      const taken = fitted(lacking, withOffered(lacking), undefined, size);
      expect(taken.work.job.picture).toEqual({
        ...before.job.picture,
        sha256: "bb",
      });
      expect(taken.told).toContain("the job keeps");
    });

    it("is not told of where nothing was set, nor where the content is the same", () => {
      const bare = withPicture(OWN, file("tide.jpg", "bb"), 2, undefined);
      expect(fitted(OWN, bare, size, size).told).toBeUndefined();
      const same = withPicture(before, TIDE, 2, undefined);
      expect(fitted(before, same, size, size)).toEqual({
        work: same,
        goesOn: true,
      });
    });
  });

  it("gives the job its name until one is typed", () => {
    const after = (name: string) => withPicture({ ...OWN, job: { ...JOB, name } }, DUNE, 2, undefined).job.name;
    expect(after("tide")).toBe("dune");
    expect(after("")).toBe("dune");
    expect(after("Low tide")).toBe("Low tide");
  });

  it("has a face proposed only while the last proposal stands", () => {
    expect(isFaceOpen(OWN, undefined)).toBe(false);
    expect(isFaceOpen({ ...OWN, proposed: JOB.face }, undefined)).toBe(true);
    expect(isFaceOpen({ ...OWN, proposed: { width_mm: 1, height_mm: 2 } }, undefined)).toBe(false);
  });
});

describe("a job that is opened", () => {
  const tide = keepPicture(TIDE);
  const dune = keepPicture(DUNE);
  const names = (sha256: string, name = "tide.jpg") => ({
    ...JOB,
    picture: {
      file: name,
      sha256,
      turn: 0 as const,
      enlarging: "photograph" as const,
    },
  });
  const inHand = (picture: number): Work => ({ ...OWN, picture });

  it("finds its picture by content among those opened", () => {
    expect(openedJob(names("aa"), inHand(dune))).toEqual({
      job: names("aa"),
      picture: tide,
      demo: false,
    });
  });

  it("is empty without it, and is offered the one in hand", () => {
    const work = openedJob(names("ee"), inHand(dune));
    expect(work).toEqual({
      job: names("ee"),
      picture: NO_PICTURE,
      demo: false,
      offered: dune,
    });
    expect(withOffered(work)).toMatchObject({
      job: { picture: { file: "dune.png", sha256: "dd" } },
      picture: dune,
    });
    expect(withOffered(work).offered).toBeUndefined();
  });

  it("is never shown with the demo's picture, nor offered it", () => {
    expect(openedJob(names("ee"), { ...inHand(dune), demo: true })).toEqual({
      job: names("ee"),
      picture: NO_PICTURE,
      demo: false,
    });
  });

  it("of a version without hashes takes the picture in hand by its name", () => {
    expect(openedJob(names(""), inHand(tide)).picture).toBe(tide);
    expect(openedJob(names(""), inHand(dune)).picture).toBe(NO_PICTURE);
    expect(openedJob(names("", ""), inHand(dune)).picture).toBe(NO_PICTURE);
  });

  it("that waits for its picture takes it, and is only offered another", () => {
    const waiting = openedJob(names("ee"), inHand(dune));
    const wrong = withPicture(waiting, TIDE, tide, undefined);
    expect(wrong).toEqual({ ...waiting, offered: tide });
    const right = withPicture(waiting, file("tide.jpg", "ee"), 9, undefined);
    expect(right).toMatchObject({ job: names("ee"), picture: 9 });
    expect(right.offered).toBeUndefined();
  });
});
