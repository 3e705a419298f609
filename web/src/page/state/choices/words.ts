// What an option costs, as a sentence with its figures. Pure.
import type { Bulk, Fill, FillOption, FinishOption, IntentOption } from "../../../contract/types";
import { lengthShown, MM_PER_INCH, percentShown, trimmed, type Unit } from "../../../units";
import { saidAgain, say } from "../../../speech/on_page";

/** A share under this is nothing. */
const NOTHING = 0.0005;

/** What of the picture is lost with a fill, and what of the sides is invented. */
export function fillCost(option: FillOption, depth_mm: number, unit: Unit): string {
  return unbroken(fillSentence(option, depth_mm, unit));
}

function fillSentence(option: FillOption, depth_mm: number, unit: Unit): string {
  const cut =
    option.cut_away_share < NOTHING
      ? say("Nothing is cropped away")
      : say("{cut_away_share} is cropped away", { cut_away_share: percentShown(option.cut_away_share) });
  if (option.fill === "run-on")
    return say("{cut}; {run_on_share} leaves the face. Nothing is invented.", {
      cut,
      run_on_share: percentShown(option.run_on_share),
    });
  return `${cut}. ${invented(option.fill, lengthShown(depth_mm, unit))}`;
}

function invented(fill: Exclude<Fill, "run-on">, depth: string): string {
  switch (fill) {
    case "mirror":
      return say("The outer {depth} show twice.", { depth });
    case "drawn-out":
      return say("{depth} of streaks are invented.", { depth });
    case "plain":
      return say("{depth} without a picture.", { depth });
    case "fade":
      return say("The outer {depth} show twice, and fade.", { depth });
    case "continued":
      return say("{depth} are invented, or show twice.", { depth });
  }
}

/** Where the canvas lies thickest with a finish. */
export function finishCost({ bulk }: FinishOption, unit: Unit): string {
  const corner = bulk.filter(({ layers }) => layers > 1);
  if (corner.length === 0) return "";
  return unbroken(`${corner.map((one) => thickness(one, unit)).join("; ")}.`);
}

const PLACES: Readonly<Record<string, string>> = {
  "folded corner": say("On the side"),
  flap: say("On the side"),
  tab: say("On the side"),
  "back corner": say("on the back"),
};

function thickness({ place, layers, thickness_mm }: Bulk, unit: Unit): string {
  const thick =
    unit === "mm"
      ? say("{thickness_mm} mm", { thickness_mm: trimmed(thickness_mm, 2) })
      : say("{thickness_mm} in", { thickness_mm: trimmed(thickness_mm / MM_PER_INCH, 3) });
  return say("{places} {layers} layers, {thick}", { places: PLACES[place] ?? saidAgain(place), layers, thick });
}

/** By how much an intent changes the picture. */
export function intentCost({ mean_de, p95_de, flattened_share }: IntentOption): string {
  return unbroken(
    say("Mean {mean_de}, 95 % within {p95_de} ΔE00. {flattened_share} printed flat.", {
      mean_de: mean_de.toFixed(1),
      p95_de: p95_de.toFixed(1),
      flattened_share: percentShown(flattened_share),
    }),
  );
}

/** A figure stays on one line with its unit. */
function unbroken(text: string): string {
  return text.replaceAll(/(\d) (%|mm|in|ΔE00)/g, "$1\u00a0$2");
}
