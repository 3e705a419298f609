// Stills of the piece on the photographed wall, drawn by the core at the photograph's size.
import type { Job, StillReport } from "../../../contract/types";
import { maskFile } from "../../../photo/strokes";
import { openProfileInCore } from "../colour/profiles";
import { variantsOnStage } from "../compare/comparison";
import { Maker } from "../output/making";
import { placedWall } from "./measured";
import { openWallInCore } from "./open_wall";
import { wallWork } from "./wall_work";

export const wallStill = new Maker<StillReport>();

/** Save one still of the job, or one of each variant that is compared. */
export function saveWallStills(): Promise<void> {
  return wallStill.run(async ({ now, ask, deliver }) => {
    const wall = wallWork.peek();
    if (wall === undefined) return;
    const variants = variantsOnStage.peek();
    const jobs: readonly Job[] = variants.length > 1 ? variants.map(({ job }) => job) : [now.job];
    for (const [i, job] of jobs.entries()) {
      const params = placedWall(wall, job);
      if (params === undefined) return;
      await openProfileInCore(job.colour.profile);
      const mask = wall.strokes.length === 0 ? undefined : await maskFile(wall.strokes, wall.photo.px);
      const buffer = await mask?.arrayBuffer();
      await openWallInCore();
      // What is marked is marked on one photograph.
      if (wallWork.peek()?.photo !== wall.photo) return;
      const answer = await ask("hang", params, buffer === undefined ? {} : { buffer });
      const { report } = answer.reply;
      const file = jobs.length === 1 ? report.file : report.file.replace(/\.jpg$/, `-${"abcd"[i] ?? ""}.jpg`);
      deliver({ ...answer, reply: { ...answer.reply, report: { ...report, file } } }, "image/jpeg");
    }
  });
}
