import { describe, expect, it } from "vitest";
import { atlasPart } from "../../../../web/src/stage/piece/atlas";

const texture = { pixels: new Uint8Array(0), widthPx: 20, heightPx: 40 };

describe("atlasPart", () => {
  it("is all of a texture that one piece has to itself", () => {
    expect(atlasPart({ texture })).toEqual({
      rows: [0, 1],
      inked: [0, 0, 1, 1],
    });
    expect(atlasPart({})).toEqual({ rows: [0, 1], inked: [0, 0, 1, 1] });
  });

  it("is a panel's own rows, its inked box counted from the first of them", () => {
    const inked = { left: 2, top: 1, right: 18, bottom: 9 };
    const rows = { topPx: 10, bottomPx: 20 };
    // derived: rows 10 to 20 of 40; the box from row 10 + 1 to row 10 + 9.
    const expected = { rows: [0.25, 0.25], inked: [0.1, 0.275, 0.9, 0.475] };
    expect(atlasPart({ texture: { ...texture, inked }, rows })).toEqual(expected);
    expect(atlasPart({ texture, rows, inked })).toEqual(expected);
    expect(atlasPart({ texture, rows }).inked).toEqual([0, 0.25, 1, 0.5]);
  });

  it("refuses rows that are not the texture's", () => {
    const rows = { topPx: 30, bottomPx: 41 };
    expect(() => atlasPart({ texture, rows })).toThrow("rows: expected a part of 40 rows, got 30 to 41");
  });
});
