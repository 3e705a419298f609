// The views that a still can show, and its largest size.
import { LARGEST_STILL_PX, MOST_STILL_PX } from "../../../stage/still/still";
import type { StillOptions, View } from "../../../stage/types";
import type { Option } from "../page/names";
import { VIEWS } from "../page/view";
import { say } from "../../../speech/on_page";

export type StillView = View | "unfolded" | "now" | "all";

/** What is offered, in this order. */
export const STILL_VIEWS: readonly Option<StillView>[] = [
  { value: "now", word: say("As you see it") },
  ...VIEWS,
  { value: "unfolded", word: say("Unfolded") },
  { value: "all", word: say("All five") },
];
/** All that show the piece by itself. */
export const EACH: readonly StillView[] = [...VIEWS.map(({ value }) => value), "unfolded"];

/** The options that the stage draws a still with. */
export function stillOptions(view: StillView, scale: StillOptions["scale"]): StillOptions {
  const drawn = scale === undefined ? {} : { scale };
  switch (view) {
    case "now":
    case "all":
      return drawn;
    case "unfolded":
      return { ...drawn, view: "front", at: 0 };
    default:
      return { ...drawn, view, at: 1 };
  }
}

/** The range that a side of `px` pixels misses; undefined where it can be drawn. */
export function sizeWrong(px: number, other: number): string | undefined {
  if (!Number.isInteger(px) || px < 16 || px > LARGEST_STILL_PX)
    return say("a whole number from 16 to {largestStillPx}", { largestStillPx: LARGEST_STILL_PX });
  if (px * other > MOST_STILL_PX)
    return say("at most {mostStillPx} beside {other}", { mostStillPx: Math.floor(MOST_STILL_PX / other), other });
  return undefined;
}
