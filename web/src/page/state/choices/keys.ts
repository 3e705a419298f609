// Keys of the pictures to choose by: while the key stays the same, so do the pictures. Pure.
import { dependsOn } from "../../../contract/dependence";
import type { Job, Viewing } from "../../../contract/types";

/** Conditions beside the job. */
export interface PictureConditions {
  /** Which of the pictures opened since the page was loaded. */
  readonly picture: number;
  /** How many profiles were kept so far. */
  readonly profiles: number;
  readonly viewing: Viewing;
}

export function fillsKey(job: Job, { picture }: PictureConditions): string {
  return JSON.stringify([picture, dependsOn(job, "choices_fills")]);
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
