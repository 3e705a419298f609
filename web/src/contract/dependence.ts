// The key of a result: the job fields that it depends on, read from the core's own table. Pure.
import table from "./dependencies.json";
import type { Job } from "./types";

type Result = keyof typeof table;

/** The values of the fields that a result of this job depends on; while they stay the same, so does the result. */
export function dependsOn(job: Job, result: Result): unknown[] {
  const { fields, while_bringing_in: alsoWhileBringingIn } = table[result];
  const counted = job.colour.bring_in > 0 ? [...fields, ...alsoWhileBringingIn] : fields;
  return counted.map((field) => valueOf(job, field) ?? "absent");
}

function valueOf(job: Job, field: string): unknown {
  return field.split(".").reduce<unknown>((at, part) => (isObject(at) ? at[part] : undefined), job);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}
