// Keys of the answers about colour: while the key stays the same, so does the answer. Pure.
import { dependsOn } from "../../../contract/dependence";
import type { Job, Screen, Viewing } from "../../../contract/types";

/** Conditions beside the job. */
export interface Circumstances {
  /** Which of the pictures opened since the page was loaded. */
  readonly picture: number;
  /** How many profiles were kept so far: a name may have found its file since. */
  readonly profiles: number;
}

export function lookKey(job: Job, on: Circumstances, viewing: Viewing, screen: Screen): string {
  return text([on.picture, on.profiles, viewing, screen, dependsOn(job, "look")]);
}

export function clipKey(job: Job, on: Circumstances): string {
  return text([on.picture, on.profiles, dependsOn(job, "clip")]);
}

/** The intents are compared on the picture as it is filed. */
export function intentsKey(job: Job, on: Circumstances): string {
  return text([on.picture, on.profiles, dependsOn(job, "intents")]);
}

export function solidKey(job: Job, on: Circumstances): string {
  return text([on.picture, on.profiles, dependsOn(job, "solid")]);
}

function text(parts: unknown[]): string {
  return JSON.stringify(parts);
}
