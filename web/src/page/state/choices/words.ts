// What an option costs, as a sentence with its figures. Pure.
import type { Bulk, Fill, FillOption, FinishOption, IntentOption } from "../../../contract/types";
import { lengthShown, MM_PER_INCH, percentShown, trimmed, type Unit } from "../../../units";

/** A share under this is nothing. */
const NOTHING = 0.0005;

/** What of the picture is lost with a fill, and what of the sides is invented. */
export function fillCost(option: FillOption, depth_mm: number, unit: Unit): string {
  return unbroken(fillSentence(option, depth_mm, unit));
}

function fillSentence(option: FillOption, depth_mm: number, unit: Unit): string {
  const cut =
    option.cut_away_share < NOTHING
      ? "Nothing is cropped away"
      : `${percentShown(option.cut_away_share)} is cropped away`;
  if (option.fill === "run-on")
    return `${cut}; ${percentShown(option.carried_share)} leaves the face. Nothing is invented.`;
  return `${cut}. ${invented(option.fill, lengthShown(depth_mm, unit))}`;
}

function invented(fill: Exclude<Fill, "run-on">, depth: string): string {
  switch (fill) {
    case "mirror":
      return `The outer ${depth} show twice.`;
    case "drawn-out":
      return `${depth} of streaks are invented.`;
    case "plain":
      return `${depth} without a picture.`;
    case "fade":
      return `The outer ${depth} show twice, and fade.`;
    case "continued":
      return `${depth} of picture are invented.`;
  }
}

/** Where the canvas lies thickest with a finish. */
export function finishCost({ bulk }: FinishOption, unit: Unit): string {
  const corner = bulk.filter(({ layers }) => layers > 1);
  if (corner.length === 0) return "";
  return unbroken(`${corner.map((one) => thickness(one, unit)).join("; ")}.`);
}

const PLACES: Readonly<Record<string, string>> = {
  "folded corner": "On the side",
  flap: "On the side",
  tab: "On the side",
  "back corner": "on the back",
};

function thickness({ place, layers, thickness_mm }: Bulk, unit: Unit): string {
  const thick = unit === "mm" ? `${trimmed(thickness_mm, 2)} mm` : `${trimmed(thickness_mm / MM_PER_INCH, 3)} in`;
  return `${PLACES[place] ?? place} ${layers} layers, ${thick}`;
}

/** By how much an intent changes the picture. */
export function intentCost({ mean_de, p95_de, flattened_share }: IntentOption): string {
  return unbroken(
    `Mean ${mean_de.toFixed(1)}, 95 % within ${p95_de.toFixed(1)} ΔE00. ${percentShown(flattened_share)} printed flat.`,
  );
}

/** A figure stays on one line with its unit. */
function unbroken(text: string): string {
  return text.replaceAll(/(\d) (%|mm|in|ΔE00)/g, "$1\u00a0$2");
}
