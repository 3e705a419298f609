// The pieces that hang in a pane, as the stage takes them.
import type { Job, PanelPlace } from "../../contract/types";
import type { StagePiece, StageSizes } from "../../stage/types";

/** The measures of each panel's piece. */
function sizesOf({ face, bars, wrap }: Job): StageSizes {
  return {
    faceWidthMm: face.width_mm,
    faceHeightMm: face.height_mm,
    depthMm: bars.depth_mm,
    turnoverMm: wrap.turnover_mm,
    corners: { finish: wrap.finish, over: wrap.over },
  };
}

/** One piece for each panel; what they share is in `alike`. */
export function piecesOf(
  job: Job,
  panels: readonly PanelPlace[],
  alike: Pick<StagePiece, "fold" | "texture" | "inked">,
): readonly StagePiece[] {
  const sizes = sizesOf(job);
  return panels.map(({ centre_mm, top_px, bottom_px }) => ({
    ...alike,
    sizes,
    rows: { topPx: top_px, bottomPx: bottom_px },
    centreMm: centre_mm,
  }));
}
