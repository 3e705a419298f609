import { expect, it } from "vitest";
import { largestFaceSentence, proposedSentence } from "../../../../../web/src/page/state/layout/face_sentences";
import { JOB } from "../../jobs";

const FACE = {
  width_mm: 350,
  height_mm: 233,
  cropped_share: 0.0002,
  crops: false,
  turned: true,
};

it("says the largest face in the person's unit", () => {
  expect(largestFaceSentence(FACE, JOB, "mm")).toBe(
    "The largest round size in the picture's shape that this sheet holds is 350 × 233 mm.",
  );
  expect(largestFaceSentence({ ...FACE, width_mm: 330.2, height_mm: 219.71 }, JOB, "inch")).toBe(
    "The largest round size in the picture's shape that this sheet holds is 13 × 8.65 in.",
  );
});

it("says so where the job has it, where it crops, and where there is none", () => {
  const job = { ...JOB, face: { width_mm: 350, height_mm: 233 } };
  expect(largestFaceSentence(FACE, job, "mm")).toBe(
    "This is the largest round size in the picture's shape that this sheet holds.",
  );
  expect(largestFaceSentence({ ...FACE, cropped_share: 0.4, crops: true }, JOB, "mm")).toContain(
    "it crops the picture",
  );
  expect(largestFaceSentence(undefined, JOB, "mm")).toBe(
    "This sheet holds no face with these bars and this turn-over.",
  );
});

it("tells of a proposal, and how to take it back", () => {
  expect(proposedSentence(FACE, JOB, "mm")).toBe(
    "The face is 350 × 233 mm: the largest round size on this sheet, in the picture's shape. Undo takes it back.",
  );
});
