// What the browser keeps of a job, as it lies in the database.
import type { DBSchema } from "idb";
import type { Face } from "../../../contract/types";

/** The part that is the present step's canvas as it was shown, for the wall until the core has made it. */
export const VIEW = "view";

/** A file that belongs to a job: its picture, a profile, a photograph of the wall, its canvas as it was shown. */
export interface PartEntry {
  readonly role: string;
  readonly name: string;
  /** Of the bytes in `blobs`: made of their content, so that equal content lies there once. */
  readonly key: string;
  readonly bytes: number;
  /** What its owner keeps with it, as text. */
  readonly data?: string;
}

/** One line in the list of jobs. */
export interface JobEntry {
  readonly id: string;
  readonly name: string;
  readonly client: string;
  /** Of the face, or of each panel's. */
  readonly width_mm: number;
  readonly height_mm: number;
  readonly panels: number;
  /** When the job last changed, in ms since 1970. */
  readonly changed_ms: number;
  readonly small?: Blob;
  readonly parts: readonly PartEntry[];
}

/** A state in the history. The job is text, which the core checks as it checks a file. */
export interface StepEntry {
  readonly job: string;
  /** The picture's key; empty where it is not at hand. */
  readonly picture: string;
  readonly label: string;
  readonly gesture?: string;
  readonly proposed?: Face;
  readonly offered?: string;
}

/** The order of a job's steps, and what is kept beside the job. */
export interface StateEntry {
  readonly id: string;
  /** The numbers of the steps, oldest first. */
  readonly steps: readonly number[];
  /** The place of the present step among them. */
  readonly present: number;
  /** What was asked for and not yet answered by the core. */
  readonly candidate?: StepEntry;
  /** To the client. */
  readonly words: string;
  /** The comparison on the wall, as text. */
  readonly comparison?: string;
}

/** Who may write a job, in a browser that has no locks. */
export interface LeaseEntry {
  readonly id: string;
  readonly tab: string;
  readonly until_ms: number;
}

export interface BlobEntry {
  readonly blob: Blob;
  readonly added_ms: number;
}

export interface KeepingSchema extends DBSchema {
  jobs: { key: string; value: JobEntry };
  states: { key: string; value: StateEntry };
  steps: { key: [string, number]; value: StepEntry };
  blobs: { key: string; value: BlobEntry };
  leases: { key: string; value: LeaseEntry };
}

/** The bytes that a job's parts have together. */
export function bytesOfParts(parts: readonly PartEntry[]): number {
  const once = new Map(parts.map(({ key, bytes }) => [key, bytes]));
  return [...once.values()].reduce((sum, bytes) => sum + bytes, 0);
}
