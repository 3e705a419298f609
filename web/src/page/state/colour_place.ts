// Where on the canvas most of a group of clipped colours lies. Pure.
import type { FlatLayout, Place } from "../../contract/types";
import type { StageLabels } from "../../stage/types";

/** Face, side or back: whichever has the most of the group's pixels. */
export function mostOn({ labels, widthPx, heightPx }: StageLabels, group: number, flat: FlatLayout): Place {
  const across = bounds(flat.columns_mm, flat.back_columns_mm, widthPx);
  const down = bounds(flat.rows_mm, flat.back_rows_mm, heightPx);
  const counts = new Map<Place, number>();
  for (let y = 0, i = 0; y < heightPx; y += 1) {
    const row = zone(down, y);
    for (let x = 0; x < widthPx; x += 1, i += 1) {
      if (labels[i] !== group) continue;
      const place = placeAt(zone(across, x), row);
      counts.set(place, (counts.get(place) ?? 0) + 1);
    }
  }
  const [most] = [...counts].sort(([, one], [, other]) => other - one);
  return most?.[0] ?? "face";
}

/** Pixels of the two arrises and the two back arrises: back, arris, arris, back. */
type Bounds = readonly [number, number, number, number];

function bounds(mm: readonly number[], [back, otherBack]: readonly [number, number], px: number): Bounds {
  const [, , arris = 0, otherArris = 0, , whole = 1] = mm;
  const scale = px / whole;
  return [back * scale, arris * scale, otherArris * scale, otherBack * scale];
}

/** −2 back, −1 side before the face, 0 face, 1 side behind it, 2 back. */
function zone([back, arris, otherArris, otherBack]: Bounds, at: number): number {
  const middle = at + 0.5;
  if (middle < arris) return middle < back ? -2 : -1;
  if (middle < otherArris) return 0;
  return middle < otherBack ? 1 : 2;
}

function placeAt(column: number, row: number): Place {
  if (column === 0 && row === 0) return "face";
  if (Math.abs(column) === 2 || Math.abs(row) === 2) return "back";
  if (column !== 0 && row !== 0) return "corners";
  if (row !== 0) return row < 0 ? "top" : "bottom";
  return column < 0 ? "left" : "right";
}
