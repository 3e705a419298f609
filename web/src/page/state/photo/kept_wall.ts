// The wall is kept with its job, as the job's part of that name, and comes back with it.
import { effect, untracked } from "@preact/signals";
import { dropPart, keepPart, type Part, parts } from "../keeping/parts";
import { closeWall, openWallPhoto, restoreWall } from "./open_wall";
import { asWall, wallText } from "./stored_wall";
import { type WallWork, wallWork } from "./wall_work";

const ROLE = "wall";

/** Keep the wall in hand with the job from now on, and take up the one that comes with another job. */
export function keepWall(): void {
  let kept: Part | undefined;
  let work: WallWork | undefined;
  effect(() => {
    const now = wallWork.value;
    if (now === work) return;
    work = now;
    untracked(() => {
      kept = now && { name: now.photo.name, blob: now.photo.blob, data: wallText(now) };
      if (kept === undefined) dropPart(ROLE);
      else keepPart(ROLE, kept);
    });
  });
  effect(() => {
    const part = parts.value[ROLE];
    if (part === kept) return;
    kept = part;
    untracked(() => {
      const stored = part && asWall(part);
      work = stored;
      if (part === undefined) closeWall();
      // A wall without its marks, or with damaged ones, begins anew.
      else void (stored === undefined ? openWallPhoto(part) : restoreWall(stored));
    });
  });
}
