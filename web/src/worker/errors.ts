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
