// Keys of the pictures to choose by: while the key stays the same, so do the pictures. Pure.
import { dependsOn } from "../../../contract/dependence";
import type { Job, Viewing } from "../../../contract/types";
import { setSide, type SideName } from "../work/edit";

/** Conditions beside the job. */
export interface PictureConditions {
  /** Which of the pictures opened since the page was loaded. */
  readonly picture: number;
  /** How many profiles were kept so far. */
  readonly profiles: number;
  readonly viewing: Viewing;
}

/** Of the fills of the sides that have none of their own, or of one side, whose own then does not count. */
export function fillsKey(job: Job, { picture }: PictureConditions, where: "all" | SideName): string {
  if (where === "all") return JSON.stringify([picture, dependsOn(job, "choices_fills")]);
  const { fill: _own, ...rest } = job.sides[where] ?? {};
  return JSON.stringify([picture, dependsOn(setSide(where, rest)(job), "choices_side_fills")]);
}

export function finishesKey(job: Job, { picture }: PictureConditions): string {
  return JSON.stringify([picture, dependsOn(job, "choices_finishes")]);
}

export function detailKey(job: Job, { picture }: PictureConditions, sizePx: number): string {
  return JSON.stringify([picture, sizePx, dependsOn(job, "detail")]);
}

export function intentsPicturesKey(job: Job, { picture, profiles, viewing }: PictureConditions): string {
  return JSON.stringify([picture, profiles, viewing, dependsOn(job, "choices_intents")]);
}
