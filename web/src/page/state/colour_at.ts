// The colour at a place of a picture. Pure.

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
