import { expect, it } from "vitest";
import {
  awaitedSentence,
  edgeSentence,
  pieceSentences,
  placeSentence,
  sizeSentence,
} from "../../../../../web/src/page/state/photo/words";

const SIZE = { widthMm: 300, heightMm: 200, depthMm: 38 };
const report = { width_within_mm: 3.2, height_within_mm: 2.9 };
const now: Parameters<typeof sizeSentence>[1] = { report: { ...blank(), ...report } };

function blank(): Parameters<typeof sizeSentence>[1]["report"] {
  const corners: [[number, number], [number, number], [number, number], [number, number]] = [
    [0, 0],
    [0, 0],
    [0, 0],
    [0, 0],
  ];
  return {
    wall_to_photo: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
    focal_px: 1,
    focal_from: "exif",
    off_normal_deg: 0,
    photo_px: [1, 1],
    references_mm: [],
    corners_px: [],
    face_px: corners,
    panels_px: [],
    uncertainty_percent: 1,
    width_within_mm: 0,
    height_within_mm: 0,
    light_from_deg: 0,
  };
}

it("says the size with what it may be off by, rounded up", () => {
  expect(sizeSentence(SIZE, now, "mm")).toBe("300 mm wide, within 4 mm; 200 mm high, within 3 mm.");
  // Derived: 3.2 mm are 0.126 in, up to the next twentieth.
  expect(sizeSentence(SIZE, now, "inch")).toBe("11.81 in wide, within 0.15 in; 7.87 in high, within 0.15 in.");
});

it("says where it hangs, and by the floor where that is marked", () => {
  expect(placeSentence([-40, 1200], "mm")).toBe(
    "Its middle is 40 mm to the left of and 1200 mm above the lower-left corner of the first reference.",
  );
  const edges = [{ kind: "floor", atMm: -250 } as const, { kind: "right", atMm: 600 } as const];
  // Derived: 1200 + 250; 600 + 40 - 150.
  expect(pieceSentences([-40, 1200], SIZE, now, edges, "mm")).toBe(
    "300 mm wide, within 4 mm; 200 mm high, within 3 mm. Its middle is 1450 mm above the floor. 490 mm to the edge to the right.",
  );
});

it("says when the piece reaches over an edge", () => {
  expect(edgeSentence({ kind: "below", atMm: 1150 }, [0, 1200], SIZE, "mm")).toBe(
    "It reaches 50 mm over the edge below.",
  );
});

it("asks for marked corners only while nothing looks for them", () => {
  expect(awaitedSentence("Looking for the reference", false)).toBe("Looking for the reference");
  expect(awaitedSentence("", true)).toBe("Measuring the wall");
  expect(awaitedSentence("", false)).toMatch("as soon as the corners of the reference are marked");
});
