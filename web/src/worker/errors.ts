// Why a call to the core failed.
import type { ErrorReply } from "../contract/types";
import { saidAgain, say } from "../speech/say";

/** An error of the core, with the fields of its reply. */
export class CoreError extends Error {
  override name = "CoreError";
  readonly code: string;
  readonly field: string;
  readonly expected: string;
  readonly got: string;
  readonly remedy: string;
  /** The values in its texts by name, the same in every language. */
  readonly values: ErrorReply["values"];

  constructor(reply: ErrorReply) {
    super(reply.message);
    this.code = reply.code;
    this.field = reply.field;
    this.expected = reply.expected;
    this.got = reply.got;
    this.remedy = reply.remedy;
    this.values = reply.values;
  }
}

/** An error that arrived: what the worker itself says, it says in English. */
export function readError(reply: ErrorReply): CoreError {
  if (reply.code !== "crash" && reply.code !== "fetch") return new CoreError(reply);
  const got = saidAgain(reply.got);
  return new CoreError({
    ...reply,
    expected: saidAgain(reply.expected),
    got,
    remedy: saidAgain(reply.remedy),
    message: reply.code === "fetch" ? saidAgain(reply.message) : say("The program in the page failed: {got}.", { got }),
  });
}

/** The core itself failed: it could not start, stopped by itself, or broke the contract. */
export function crashError(got: string, remedy: string): CoreError {
  return new CoreError({
    code: "crash",
    field: "",
    expected: say("an answer from the core"),
    got,
    remedy,
    values: {},
    message: sentence(got),
  });
}

/** Any failure as a CoreError. One that the core did not send is a fault of the page: it goes to the log too. */
export function asCoreError(failure: unknown): CoreError {
  if (failure instanceof CoreError) return failure;
  console.error(failure);
  const got = failure instanceof Error ? failure.message : String(failure);
  return new CoreError({
    code: "page",
    field: "",
    expected: say("an answer that the page understands"),
    got,
    remedy: say("load the page again; the job is kept"),
    values: {},
    message: sentence(got),
  });
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/\.$/, "")}.`;
}
