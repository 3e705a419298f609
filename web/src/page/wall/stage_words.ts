// What the stage shows, in one sentence, for people who do not see it.
import type { Job } from "../../contract/types";
import type { ColourView } from "../../stage/types";
import { fillWord } from "../state/page/names";
import type { Scene } from "../state/page/view";
import { percentShown, sizeShown, type Unit, lengthShown } from "../../units";
import { lowered, say } from "../../speech/on_page";

export interface StageSeen {
  readonly job: Job;
  readonly unit: Unit;
  readonly scene: Scene;
  /** From flat (0) to folded (1). */
  readonly fold: number;
  /** The word of the viewpoint; none when it was moved by hand. */
  readonly view: string | undefined;
  readonly colours: ColourView;
  /** Where the piece hangs on the photographed wall, and how large. */
  readonly place: string;
}

const COLOUR_WORDS: Record<ColourView, string> = {
  filed: say("in its original colours"),
  printed: say("in the colours as printed"),
  clip: say("as a gamut map"),
};

/** One sentence: what is there, how far it is folded, where from it is seen, and in which colours. */
export function stageWords({ job, unit, scene, fold, view, colours, place }: StageSeen): string {
  const { face, bars, group, sides } = job;
  const panels = group.panels > 1 ? say("{panels} canvases of ", { panels: group.panels }) : say("A canvas of ");
  const piece = `${panels}${sizeShown(face.width_mm, face.height_mm, unit)}`;
  if (scene === "sheet") return say("{piece} on its sheet, {colour}.", { piece, colour: COLOUR_WORDS[colours] });
  if (scene === "photo") return say("{piece} on the photograph of the wall. {place}", { piece, place }).trim();
  const folded =
    fold === 0 ? say("flat") : fold === 1 ? say("folded") : say("{fold} folded", { fold: percentShown(fold) });
  const from =
    view === undefined ? say("seen from where you turned it") : say("seen from: {view}", { view: lowered(view) });
  const depth = say("on bars {depth_mm} deep", { depth_mm: lengthShown(bars.depth_mm, unit) });
  return say("{piece} {depth}, {folded}, {from}, {colour}. Sides: {fillWord}.", {
    piece,
    depth,
    folded,
    from,
    colour: COLOUR_WORDS[colours],
    fillWord: lowered(fillWord(sides.fill)),
  });
}
