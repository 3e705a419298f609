import { describe, expect, it } from "vitest";
import { figure, floorAxes, lightnessRuler } from "../../../web/src/solid/axes";
import { labPoint } from "../../../web/src/solid/lab_space";

describe("figure", () => {
  it("has a minus as wide as a plus", () => {
    expect([figure(40), figure(-40)]).toEqual(["40", "\u221240"]);
  });
});

describe("floorAxes", () => {
  it("names both ends of both axes, and every second tick", () => {
    const texts = floorAxes(100).labels.map((word) => word.text);
    // derived: from -100 to 100 by 20, figures at multiples of 40 but 0: -80, -40, 40, 80, twice.
    for (const text of ["\u221280", "\u221240", "40", "80"]) {
      expect(texts.filter((one) => one === text).length).toBe(2);
    }
    expect(
      floorAxes(100)
        .labels.filter((word) => word.isName)
        .map((word) => word.text),
    ).toEqual(["+a*", "\u2212a*", "+b*", "\u2212b*"]);
    expect(texts.length).toBe(12);
  });

  it("lies at L* = 0, but for the line of greys", () => {
    const off = floorAxes(80).lines.filter((line) => line.to[1] !== labPoint(0, 0, 0)[1]);
    expect(off.map((line) => [line.from, line.to])).toEqual([[labPoint(0, 0, 0), labPoint(100, 0, 0)]]);
  });

  it("has a ring for every 40 of chroma", () => {
    // derived: 2 axes, 2 x 8 ticks, 2 rings of 72 parts, the greys.
    expect(floorAxes(80).lines.length).toBe(2 + 16 + 144 + 1);
  });
});

describe("lightnessRuler", () => {
  it("runs from 0 to 100 where it is put", () => {
    const { lines, labels } = lightnessRuler(-80, 10, -1, 0);
    expect([lines[0]?.from, lines[0]?.to]).toEqual([labPoint(0, -80, 10), labPoint(100, -80, 10)]);
    expect(labels.map((word) => word.text)).toEqual(["L*", "0", "20", "40", "60", "80", "100"]);
    // Figures stand further out than the line.
    expect(labels[1]?.at).toEqual(labPoint(0, -88, 10));
  });
});
