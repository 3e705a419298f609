// Keys of the answers about colour: while the key stays the same, so does the answer. Pure.
import type { Job, Screen, Viewing } from "../../../contract/types";

/** Conditions beside the job. */
export interface Circumstances {
  /** Which of the pictures opened since the page was loaded. */
  readonly picture: number;
  /** How many profiles were kept so far: a name may have found its file since. */
  readonly profiles: number;
}

/** The job's fields that decide how the picture lies on the flat canvas. */
function placed(job: Job): unknown[] {
  return [job.picture, job.face, job.bars, job.wrap, job.sides, job.canvas];
}

/** Bringing in is fitted to the picture as it lies on the canvas, and to the threshold. */
function broughtIn(job: Job): unknown[] {
  return job.colour.bring_in > 0 ? [job.colour.bring_in, job.colour.clip_threshold_de, ...placed(job)] : [];
}

export function lookKey(job: Job, on: Circumstances, viewing: Viewing, screen: Screen): string {
  const { profile, intent, black_point_compensation: compensated } = job.colour;
  return text([on.picture, on.profiles, profile, intent, compensated, viewing, screen, broughtIn(job)]);
}

export function clipKey(job: Job, on: Circumstances): string {
  return text([on.picture, on.profiles, job.colour, placed(job)]);
}

/** The intents are compared on the picture as it is filed. */
export function intentsKey(job: Job, on: Circumstances): string {
  return text([on.picture, on.profiles, job.colour.profile, job.colour.clip_threshold_de, placed(job)]);
}

export function solidKey(job: Job, on: Circumstances): string {
  const { profile, intent, black_point_compensation: compensated } = job.colour;
  return text([on.picture, on.profiles, profile, intent, compensated, broughtIn(job), placed(job)]);
}

function text(parts: unknown[]): string {
  return JSON.stringify(parts);
}
