import { describe, expect, it } from "vitest";
import {
  checkFold,
  clearances,
  frameMix,
  lineStrength,
  mixFigure,
  mixFrames,
  shownAt,
} from "../../../../web/src/stage/piece/fold_frames";
import { DEPTH_MM, REACH_MM, stripFold } from "../strip_fold";

describe("frameMix", () => {
  it("is exact on every sampled position", () => {
    const samples = [0, 0.3, 0.7, 1];
    samples.forEach((at, i) => expect(frameMix(samples, at)).toEqual({ low: i, high: i, mix: 0 }));
  });

  it("mixes the two frames about a position", () => {
    const frame = frameMix([0, 0.5, 1], 0.625);
    expect([frame.low, frame.high]).toEqual([1, 2]);
    // derived: (0.625 - 0.5) / (1 - 0.5) = 0.25.
    expect(frame.mix).toBeCloseTo(0.25, 12);
  });

  it("holds the ends outside of the samples", () => {
    expect(frameMix([0, 1], -3)).toEqual({ low: 0, high: 0, mix: 0 });
    expect(frameMix([0, 1], 3)).toEqual({ low: 1, high: 1, mix: 0 });
  });
});

describe("mixFrames", () => {
  it("moves every corner straight between its two frames", () => {
    const out = new Float32Array(18);
    mixFrames(stripFold, { low: 0, high: 1, mix: 0.5 }, out);
    // derived: corner 4 goes from (463, 0, 0) to (400, 0, -63); half way is (431.5, 0, -31.5).
    expect([...out.slice(12, 15)]).toEqual([431.5, 0, -31.5]);
    // derived: the face does not move.
    expect([...out.slice(0, 12)]).toEqual([...stripFold.positions.slice(0, 12)]);
  });
});

describe("clearances", () => {
  it("keeps every later frame off the wall too", () => {
    // derived: the strip reaches 63 mm behind the face in the middle frame, 25 mm past bars of 38 mm; the flat
    // frame before it needs as much, because the piece only comes nearer; the last frame ends at the bars' back.
    expect([...clearances(stripFold, DEPTH_MM)]).toEqual([REACH_MM - DEPTH_MM, REACH_MM - DEPTH_MM, 0]);
  });

  it("is nothing where the bars are deeper than all that folds", () => {
    expect([...clearances(stripFold, 100)]).toEqual([0, 0, 0]);
  });

  it("never lets a mixed frame cut the wall", () => {
    const need = clearances(stripFold, DEPTH_MM);
    const out = new Float32Array(18);
    for (let at = 0; at <= 1; at += 0.05) {
      const frame = frameMix(stripFold.at, at);
      mixFrames(stripFold, frame, out);
      let lowest = 0;
      for (let i = 2; i < out.length; i += 3) lowest = Math.min(lowest, out[i] ?? 0);
      expect(lowest + DEPTH_MM + mixFigure(need, frame)).toBeGreaterThanOrEqual(-1e-4);
    }
  });
});

describe("shownAt", () => {
  const steps = [
    { name: "a", label: "", start: 0, end: 0.5 },
    { name: "b", label: "", start: 0.5, end: 1, hidden: true },
  ];

  it("shows the start of a hidden step, then its end", () => {
    expect([0.25, 0.5, 0.6, 0.74, 0.76, 1].map((at) => shownAt(at, steps))).toEqual([0.25, 0.5, 0.5, 0.5, 1, 1]);
  });

  it("stays from 0 to 1", () => {
    expect([shownAt(-1, []), shownAt(2, [])]).toEqual([0, 1]);
  });
});

describe("lineStrength", () => {
  it("is full when open, gone when folded, and only ever fades", () => {
    expect([lineStrength(0), lineStrength(0.5), lineStrength(1)]).toEqual([1, 1, 0]);
    for (let at = 0; at < 1; at += 0.01) expect(lineStrength(at + 0.01)).toBeLessThanOrEqual(lineStrength(at));
  });
});

describe("checkFold", () => {
  it("takes a whole mesh", () => {
    expect(() => checkFold(stripFold)).not.toThrow();
  });

  it("names the part that does not belong", () => {
    const short = { ...stripFold, positions: stripFold.positions.slice(3) };
    expect(() => checkFold(short)).toThrow("fold.positions: expected 3 frames of 6 vertices, got 51 numbers");
    const far = { ...stripFold, triangles: new Uint32Array([0, 1, 9]) };
    expect(() => checkFold(far)).toThrow("fold.triangles: expected less than 6, got 9");
    expect(() => checkFold({ ...stripFold, at: [] })).toThrow("fold.at: expected at least one");
  });
});
