// Reading pixels: where most of a hue group lies, and the colour at a place. Pure.
import type { FlatLayout, Place } from "../../../contract/types";
import type { StageLabels } from "../../../stage/types";

/** Face, side or back: the part with the most pixels of the hue group. */
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

/** Pixels of the two front edges and the two back edges: back, front, front, back. */
type Bounds = readonly [number, number, number, number];

function bounds(mm: readonly number[], [back, otherBack]: readonly [number, number], px: number): Bounds {
  const [, , front = 0, otherFront = 0, , whole = 1] = mm;
  const scale = px / whole;
  return [back * scale, front * scale, otherFront * scale, otherBack * scale];
}

/** −2 back, −1 side before the face, 0 face, 1 side behind it, 2 back. */
function zone([back, front, otherFront, otherBack]: Bounds, at: number): number {
  const middle = at + 0.5;
  if (middle < front) return middle < back ? -2 : -1;
  if (middle < otherFront) return 0;
  return middle < otherBack ? 1 : 2;
}

function placeAt(column: number, row: number): Place {
  if (column === 0 && row === 0) return "face";
  if (Math.abs(column) === 2 || Math.abs(row) === 2) return "back";
  if (column !== 0 && row !== 0) return "corners";
  if (row !== 0) return row < 0 ? "top" : "bottom";
  return column < 0 ? "left" : "right";
}

/** Pixels to each side of the place that are averaged, so that no single grain decides. */
const REACH = 2;

/** The mean colour about a place (fractions from the top-left corner) as #rrggbb, srgb_encoded. */
export function averageColour(
  image: Pick<ImageData, "data" | "width" | "height">,
  place: { x: number; y: number },
): string {
  const column = Math.min(image.width - 1, Math.floor(place.x * image.width));
  const row = Math.min(image.height - 1, Math.floor(place.y * image.height));
  const sums = [0, 0, 0];
  let count = 0;
  for (let y = Math.max(0, row - REACH); y <= Math.min(image.height - 1, row + REACH); y++) {
    for (let x = Math.max(0, column - REACH); x <= Math.min(image.width - 1, column + REACH); x++) {
      for (let c = 0; c < 3; c++) sums[c] = (sums[c] ?? 0) + (image.data[(y * image.width + x) * 4 + c] ?? 0);
      count += 1;
    }
  }
  return `#${sums
    .map((sum) =>
      Math.round(sum / count)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
}
