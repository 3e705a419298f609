// The measures of a job's piece, for the stage.
import type { Job } from "../../contract/types";
import type { StageSizes } from "../../stage/types";

/** The measures of each panel's piece. */
export function sizesOf({ face, bars, wrap }: Job): StageSizes {
  return {
    faceWidthMm: face.width_mm,
    faceHeightMm: face.height_mm,
    depthMm: bars.depth_mm,
    turnoverMm: wrap.turnover_mm,
    corners: { finish: wrap.finish, over: wrap.over },
  };
}
