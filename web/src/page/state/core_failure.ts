// Whatever went wrong on the way to the core, as an error with field, expected, got and remedy.
import { CoreError } from "../../worker/client";

/** Anything that is not the core's own word is a fault of the page: it is shown, and goes to the log. */
export function asCoreError(failure: unknown): CoreError {
  if (failure instanceof CoreError) return failure;
  console.error(failure);
  const got = failure instanceof Error ? failure.message : String(failure);
  return new CoreError({
    code: "page",
    field: "",
    expected: "an answer that the page understands",
    got,
    remedy: "load the page again; the job is kept",
    message: got,
  });
}
