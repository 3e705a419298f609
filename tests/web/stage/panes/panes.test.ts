import { describe, expect, it } from "vitest";
import { paneBoxes, paneGrid, paneTemplate } from "../../../../web/src/stage/panes/panes";

describe("paneGrid", () => {
  // derived: of all grids the one whose panes' shorter side is longest.
  it.each([
    [1, 1.6, 1, 1],
    [2, 1.6, 2, 1],
    [2, 0.5, 1, 2],
    [3, 1.6, 3, 1],
    [3, 0.4, 1, 3],
    [4, 1.6, 2, 2],
    [4, 5, 4, 1],
    [4, 0.2, 1, 4],
  ])("%d panes in a picture of aspect %f", (count, aspect, columns, rows) => {
    expect(paneGrid(count, aspect)).toEqual({ columns, rows });
  });
});

it("writes a grid as CSS, its rows first", () => {
  expect(paneTemplate({ columns: 3, rows: 2 })).toBe("repeat(2, minmax(0, 1fr)) / repeat(3, minmax(0, 1fr))");
});

describe("paneBoxes", () => {
  it("fills row by row from the top left, counted from below", () => {
    expect(paneBoxes(3, 202, 202, 2)).toEqual([
      { left: 0, bottom: 102, width: 100, height: 100 },
      { left: 102, bottom: 102, width: 100, height: 100 },
      { left: 0, bottom: 0, width: 100, height: 100 },
    ]);
  });

  it("gives one pane all of the picture", () => {
    expect(paneBoxes(1, 333, 111, 2)).toEqual([{ left: 0, bottom: 0, width: 333, height: 111 }]);
  });
});
