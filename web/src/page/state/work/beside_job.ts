// What is kept beside the job: the demo's job as it was shown at first, and a few words to the client.
import { signal } from "@preact/signals";
import type { Job } from "../../../contract/types";

export const demoJob = signal<Job | undefined>(undefined);

/** The message to the client. It belongs to the work in hand and is kept with it, not in the job file. */
export const clientWords = signal("");
