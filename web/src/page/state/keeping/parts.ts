// Files that belong to the job beside its picture and profiles, for example the photograph of the wall. A part's owner
// names its role; it is kept, copied and deleted with the job.
import { signal } from "@preact/signals";

export interface Part {
  readonly name: string;
  readonly blob: Blob;
  /** What its owner keeps with it, as text. */
  readonly data?: string;
}

/** The parts of the job in hand, by role. */
export const parts = signal<Readonly<Record<string, Part>>>({});

/** Keep a part with the job. */
export function keepPart(role: string, part: Part): void {
  parts.value = { ...parts.value, [role]: part };
}

/** The job has no such part any more. */
export function dropPart(role: string): void {
  const { [role]: _former, ...others } = parts.value;
  parts.value = others;
}
