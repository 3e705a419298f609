// What cannot be changed here, because another tab writes the job.
import { readOnly } from "../keeping/mode";
import { job } from "./work";

/** Whether a field is the job's and only shown; settings of the page and of its files stay free. */
export function isFixed(field: string): boolean {
  const [part = ""] = field.split(".");
  return readOnly.value && job.value !== undefined && part in job.value;
}
