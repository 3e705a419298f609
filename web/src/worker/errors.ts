// Why a call to the core failed.
import type { ErrorReply } from "../contract/types";

/** An error of the core, with all that it said about it. */
export class CoreError extends Error {
  override name = "CoreError";
  readonly code: string;
  readonly field: string;
  readonly expected: string;
  readonly got: string;
  readonly remedy: string;

  constructor(said: ErrorReply) {
    super(said.message);
    this.code = said.code;
    this.field = said.field;
    this.expected = said.expected;
    this.got = said.got;
    this.remedy = said.remedy;
  }
}

/** The core itself failed: it could not start, stopped by itself, or broke the contract. */
export function crashError(got: string, remedy: string): CoreError {
  return new CoreError({
    code: "crash",
    field: "",
    expected: "an answer from the core",
    got,
    remedy,
    message: `${got}; ${remedy}`,
  });
}

// Whatever went wrong on the way to the core, as an error with field, expected, got and remedy.

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
