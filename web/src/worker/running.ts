// Runs calls step by step, so that between two steps the worker hears whether it shall stop, and a short call
// need not wait for a long one.
import { mark } from "../speech/say";
import type { ErrorReply, Method, Progress } from "../contract/types";
import type { CallAdapter as Adapter } from "./adapter";
import type { FromWorker, ToWorker } from "./protocol";

type Call = Extract<ToWorker, { kind: "call" }>;
type Post = (message: FromWorker, transfer: ArrayBuffer[]) => void;

/** A fault inside the core, as opposed to the errors that it raises on purpose. */
export type Fault =
  /** Python raised what it should not have, and lives on. */
  | { kind: "raised"; message: string; traceback: string }
  /** The interpreter itself is gone. */
  | { kind: "fatal"; message: string };

/** What a call needed besides did not come. */
const NOT_FETCHED: ErrorReply = {
  code: "fetch",
  field: "",
  expected: mark("the part of the program that does this"),
  got: mark("no answer from the page's own folder"),
  remedy: mark("check the connection, then try again"),
  values: {},
  message: mark("A part of the program that is fetched when it is first needed did not come."),
};

/** Give the event loop a turn. Timers are clamped to 4 ms after a few turns; a message to oneself is not. */
export function turn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });
}

export class RunningCalls {
  readonly #adapter: Adapter;
  readonly #post: Post;
  readonly #judge: (thrown: unknown) => Fault;
  readonly #fetchFor: (method: Method) => Promise<void> | undefined;
  /** Python's number of each call under way, by the page's. */
  readonly #handles = new Map<number, number>();
  /** The calls that wait for what is fetched for them. */
  readonly #fetching = new Set<number>();

  constructor(
    adapter: Adapter,
    post: Post,
    judge: (thrown: unknown) => Fault,
    fetchFor: (method: Method) => Promise<void> | undefined = () => undefined,
  ) {
    this.#adapter = adapter;
    this.#post = post;
    this.#judge = judge;
    this.#fetchFor = fetchFor;
  }

  /** Run a call to its end, its failure, or until it is stopped. Never rejects. */
  async run({ id, method, params, buffer }: Call): Promise<void> {
    const fetching = this.#fetchFor(method);
    // Without a wait where nothing is fetched: the call is then under way when this returns.
    if (fetching !== undefined && !(await this.#came(id, fetching))) return;
    try {
      const handle =
        buffer === undefined
          ? this.#adapter.begin(method, params)
          : this.#adapter.begin(method, params, new Uint8Array(buffer));
      this.#handles.set(id, handle);
      while (this.#handles.has(id) && this.#advance(id, handle)) await turn();
    } catch (thrown) {
      this.#report(id, this.#judge(thrown));
    } finally {
      this.stop(id);
    }
  }

  /** Wait for what a call needs besides; whether it came, and the call was not stopped meanwhile. */
  async #came(id: number, fetching: Promise<void>): Promise<boolean> {
    const begun: Progress = { done: 0, label: mark("Fetching what this needs") };
    this.#post({ kind: "progress", id, text: JSON.stringify(begun) }, []);
    this.#fetching.add(id);
    try {
      await fetching;
      return this.#fetching.has(id);
    } catch (thrown) {
      // No fault: a connection may fail.
      console.warn(thrown);
      if (this.#fetching.has(id)) this.#post({ kind: "error", id, text: JSON.stringify(NOT_FETCHED) }, []);
      return false;
    } finally {
      this.#fetching.delete(id);
    }
  }

  /** Release a call at any point. It is between two steps, as this worker does one thing at a time. */
  stop(id: number): void {
    this.#fetching.delete(id);
    const handle = this.#handles.get(id);
    if (handle === undefined) return;
    this.#handles.delete(id);
    try {
      this.#adapter.end(handle);
    } catch (thrown) {
      this.#report(id, this.#judge(thrown));
    }
  }

  /** One step; whether there are more. */
  #advance(id: number, handle: number): boolean {
    const step = this.#adapter.step(handle);
    if (step.kind === "result") {
      const { text, buffers } = step;
      this.#post({ kind: "result", id, text, buffers }, buffers);
      return false;
    }
    this.#post({ kind: step.kind, id, text: step.text }, []);
    return step.kind === "progress";
  }

  #report(id: number, fault: Fault): void {
    if (fault.kind === "fatal") {
      this.#post({ kind: "crashed", message: fault.message }, []);
      return;
    }
    console.error(fault.traceback);
    const error: ErrorReply = {
      code: "crash",
      field: "",
      expected: mark("an answer from the core"),
      got: fault.message,
      remedy: mark("the job in hand is as it was; try again"),
      values: {},
      message: `The program in the page failed: ${fault.message}.`,
    };
    this.#post({ kind: "error", id, text: JSON.stringify(error) }, []);
  }
}
