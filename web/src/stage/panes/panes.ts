/** The layout of several panes side by side on one drawing. */

/** Panes in columns and rows, filled row by row from the top left. */
export interface PaneGrid {
  readonly columns: number;
  readonly rows: number;
}

/** A part of the picture in pixels, counted from the lower left. */
export interface PaneBox {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

/** The most panes that can be told apart at a glance. */
export const MOST_PANES = 4;

/** Columns and rows for so many panes in a picture of width / height `aspect`: the grid whose panes are least narrow. */
export function paneGrid(count: number, aspect: number): PaneGrid {
  let best: PaneGrid = { columns: 1, rows: Math.max(1, count) };
  let widest = 0;
  for (let columns = 1; columns <= count; columns += 1) {
    const rows = Math.ceil(count / columns);
    const narrow = Math.min(aspect / columns, 1 / rows);
    if (narrow > widest) {
      widest = narrow;
      best = { columns, rows };
    }
  }
  return best;
}

/** The same as CSS: a grid of equal cells. */
export function paneTemplate({ columns, rows }: PaneGrid): string {
  return `repeat(${rows}, minmax(0, 1fr)) / repeat(${columns}, minmax(0, 1fr))`;
}

/** Where each of so many panes lies in a picture, with a line of `gapPx` between neighbours; all are equally large. */
export function paneBoxes(count: number, widthPx: number, heightPx: number, gapPx: number): readonly PaneBox[] {
  const { columns, rows } = paneGrid(count, widthPx / heightPx);
  const width = Math.max(1, Math.floor((widthPx - gapPx * (columns - 1)) / columns));
  const height = Math.max(1, Math.floor((heightPx - gapPx * (rows - 1)) / rows));
  return Array.from({ length: count }, (_, i) => {
    const row = Math.floor(i / columns);
    return {
      left: (i % columns) * (width + gapPx),
      bottom: heightPx - height - row * (height + gapPx),
      width,
      height,
    };
  });
}
