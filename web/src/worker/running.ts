// Runs calls step by step, so that between two steps the worker hears whether it shall stop, and a short call
// need not wait for a long one.
import type { ErrorReply } from "../contract/types";
import type { Adapter } from "./adapter";
import type { FromWorker, ToWorker } from "./protocol";

type Call = Extract<ToWorker, { kind: "call" }>;
type Post = (message: FromWorker, transfer: ArrayBuffer[]) => void;

/** A fault inside the core, as opposed to the errors that it raises on purpose. */
export type Fault =
  /** Python raised what it should not have, and lives on. */
  | { kind: "raised"; message: string; traceback: string }
  /** The interpreter itself is gone. */
  | { kind: "fatal"; message: string };

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
  /** Python's number of each call under way, by the page's. */
  readonly #handles = new Map<number, number>();

  constructor(adapter: Adapter, post: Post, judge: (thrown: unknown) => Fault) {
    this.#adapter = adapter;
    this.#post = post;
    this.#judge = judge;
  }

  /** Run a call to its end, its failure, or until it is stopped. Never rejects. */
  async run({ id, method, params, buffer }: Call): Promise<void> {
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

  /** Release a call at any point. It is between two steps, as this worker does one thing at a time. */
  stop(id: number): void {
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
      expected: "an answer from the core",
      got: fault.message,
      remedy: "the job in hand is as it was; try again",
      message: `The program in the page failed: ${fault.message}.`,
    };
    this.#post({ kind: "error", id, text: JSON.stringify(error) }, []);
  }
}
