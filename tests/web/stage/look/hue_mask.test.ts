import { describe, expect, it } from "vitest";
import {
  ELSEWHERE,
  hueGroupMask,
  hueGroupPlaces,
  LINE,
  MEMBER,
  neighbourhoods,
  RIM,
} from "../../../../web/src/stage/look/hue_mask";

describe("hueGroupMask", () => {
  it("tells one group from the others", () => {
    expect([...hueGroupMask(new Uint8Array([0, 1, 2, 1, 8]), 1)]).toEqual([0, 255, 0, 255, 0]);
  });
});

describe("neighbourhoods", () => {
  it("takes means over squares that are cut off at the edges", () => {
    const mask = new Uint8Array([0, 0, 0, 0, 0, 36, 0, 0, 0, 0, 0, 0]);
    // derived: 3 rows of 4 with 36 in the second of the middle row; a corner sees 4 pixels, an edge 6, the middle 9.
    expect([...neighbourhoods(mask, 4, 3, 1)]).toEqual([9, 6, 6, 0, 6, 4, 4, 0, 9, 6, 6, 0]);
  });

  it("sees all of a picture that is smaller than its reach", () => {
    expect([...neighbourhoods(new Uint8Array([30, 0, 0]), 3, 1, 5)]).toEqual([10, 10, 10]);
  });
});

describe("groupPlace", () => {
  const [widthPx, heightPx] = [40, 40];
  const half = new Uint8Array(widthPx * heightPx).fill(1, (widthPx * heightPx) / 2);
  const column = (place: Uint8Array, x: number): number[] =>
    Array.from({ length: heightPx }, (_, y) => place[y * widthPx + x] ?? -1);

  it("draws a line with its rim along the edge", () => {
    const seen = column(hueGroupPlaces({ labels: half, widthPx, heightPx }, 1), 20);
    // derived: the group begins in row 20. Over nine rows the share in row y is (y - 15) / 9: 0.33 in row 18,
    // 0.44 in row 19, so that 0.4 is passed after row 18; a rim of one pixel lies on either side.
    expect(seen.map((what, y) => (what === LINE ? y : -1)).filter((y) => y >= 0)).toEqual([18]);
    expect(seen.map((what, y) => (what === RIM ? y : -1)).filter((y) => y >= 0)).toEqual([17, 19]);
    expect(seen.slice(0, 17).every((what) => what === ELSEWHERE)).toBe(true);
    expect(seen.slice(20).every((what) => what === MEMBER)).toBe(true);
  });

  it("draws none round specks, which are members all the same", () => {
    const labels = new Uint8Array(widthPx * heightPx);
    labels[20 * widthPx + 20] = 5;
    const seen = hueGroupPlaces({ labels, widthPx, heightPx }, 5);
    expect(seen.includes(LINE)).toBe(false);
    expect(seen[20 * widthPx + 20]).toBe(MEMBER);
  });

  it("draws a wider line where the picture has more pixels", () => {
    const wide = 1800;
    const labels = new Uint8Array(wide * 40).fill(1, wide * 20);
    const seen = hueGroupPlaces({ labels, widthPx: wide, heightPx: 40 }, 1);
    const rows = Array.from({ length: 40 }, (_, y) => seen[y * wide + 900]).filter((what) => what === LINE);
    // derived: 1800 pixels are twice the width that is shown.
    expect(rows.length).toBe(2);
  });
});
