// The stage follows the colour view, its tables, the threshold and the group that is lit up.
import { effect } from "@preact/signals";
import type { Stage } from "../../stage/types";
import { clipped, lit } from "../state/colour_clip";
import { drawnView, look } from "../state/colour_look";
import { threshold } from "../state/colour_view";

export function followColours(stage: Stage): (() => void)[] {
  return [
    effect(() => {
      if (look.value !== undefined) stage.setLook(look.value);
    }),
    effect(() => stage.setColourView(drawnView.value)),
    effect(() => stage.setThreshold(threshold.value)),
    effect(() => {
      const labels = clipped.value?.labels;
      if (labels !== undefined) stage.setLabels(labels.labels, labels.widthPx, labels.heightPx);
    }),
    effect(() => stage.highlight(lit.value?.number ?? 0)),
  ];
}
