// What the stage shows, in one sentence, for people who do not see it.
import type { Job } from "../../contract/types";
import type { ColourView } from "../../stage/types";
import { fillWord } from "../state/page/names";
import type { Scene } from "../state/page/view";
import { percentShown, sizeShown, type Unit, lengthShown } from "../../units";

export interface StageSeen {
  readonly job: Job;
  readonly unit: Unit;
  readonly scene: Scene;
  /** From flat (0) to folded (1). */
  readonly fold: number;
  /** The word of the viewpoint; none when it was moved by hand. */
  readonly view: string | undefined;
  readonly colours: ColourView;
}

const COLOUR_WORDS: Record<ColourView, string> = {
  filed: "in its original colours",
  printed: "in the colours as printed",
  clip: "as a gamut map",
};

/** One sentence: what is there, how far it is folded, where from it is seen, and in which colours. */
export function stageWords({ job, unit, scene, fold, view, colours }: StageSeen): string {
  const { face, bars, group, sides } = job;
  const panels = group.panels > 1 ? `${group.panels} canvases of ` : "A canvas of ";
  const piece = `${panels}${sizeShown(face.width_mm, face.height_mm, unit)}`;
  if (scene === "sheet") return `${piece} on its sheet, ${COLOUR_WORDS[colours]}.`;
  const folded = fold === 0 ? "flat" : fold === 1 ? "folded" : `${percentShown(fold)} folded`;
  const from = view === undefined ? "seen from where you turned it" : `seen from: ${view.toLowerCase()}`;
  const depth = `on bars ${lengthShown(bars.depth_mm, unit)} deep`;
  return `${piece} ${depth}, ${folded}, ${from}, ${COLOUR_WORDS[colours]}. Sides: ${fillWord(sides.fill).toLowerCase()}.`;
}
