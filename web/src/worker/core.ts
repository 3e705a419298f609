// The interface of the core for the page, and the services of the browser that it needs.
import type { Params } from "../contract/calls";
import type { Method, Progress } from "../contract/types";
import type { Answer } from "./calls";
import type { CoreError } from "./errors";

export interface CallOptions {
  /** Bytes that go with the call. They are transferred: the caller's own buffer is empty afterwards. */
  buffer?: ArrayBuffer | undefined;
  onProgress?: ((progress: Progress) => void) | undefined;
  /** Stops the call; its promise then rejects with the signal's reason. */
  signal?: AbortSignal | undefined;
}

export interface CoreOptions {
  /** The language of what the core says, as a tag of BCP 47; English where it is left out. */
  language?: string | undefined;
  /** How far loading is, from 0 to 1, and what is being loaded. */
  onLoading?: ((loading: Progress) => void) | undefined;
  /** The worker died and another is starting, which knows nothing of what the last one had open. Calls may be
   * made at once: they wait until it is ready. */
  onRestart?: ((reason: CoreError) => void) | undefined;
  /** How long the worker has not been heard while a call waits, in ms; 0 when it is heard again. */
  onSilence?: ((silent_ms: number) => void) | undefined;
}

export interface Core {
  /** Resolves when Python is there for the first time; rejects when it cannot be started. */
  readonly ready: Promise<void>;
  /** Ask the core. A call made before it is ready waits. Rejects with a CoreError. */
  call<M extends Method>(method: M, params: Params<M>, options?: CallOptions): Promise<Answer<M>>;
  /** End the worker, which does not answer, and start another. */
  restart(): void;
  /** End the worker for good. */
  end(): void;
}

/** The part of a worker that the client needs; tests pass their own. */
export type CoreWorker = Pick<Worker, "postMessage" | "addEventListener" | "terminate">;

/** The services of the browser that the client needs. */
export interface BrowserServices {
  spawn(): CoreWorker;
  /** The address of the folder of the Python runtime. */
  python: string;
  /** Whether Python shall start by itself, without the snapshot. */
  plain: boolean;
  locks: LockManager | undefined;
  now(): number;
  /** Do something again and again; returns what ends that. */
  every(wait_ms: number, work: () => void): () => void;
}
