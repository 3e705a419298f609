// One kind of question to the core: its latest answer, the key that is wanted, progress and failure.
import { batch, computed, signal } from "@preact/signals";
import type { Progress } from "../../../contract/types";
import type { QueryQueue } from "./query_queue";
import { asCoreError } from "../../../worker/errors";
import { failureText, type FieldError } from "../page/fields";

/** The number of answers kept, so that undo asks nothing again. */
const KEPT = 4;
/** The number of times that a question is asked again after the core died of it. */
const CRASHES_ALLOWED = 1;

export interface Known<T> {
  readonly key: string;
  readonly value: T;
}

export type Question<T> = (signal: AbortSignal, onProgress: (progress: Progress) => void) => Promise<T>;

export class Query<T> {
  readonly #kind: string;
  readonly #lane: QueryQueue;
  #kept: readonly Known<T>[] = [];
  #crashes = 0;
  /** The latest answer; it stays until the next one comes. */
  readonly known = signal<Known<T> | undefined>(undefined);
  readonly requested = signal<string | undefined>(undefined);
  readonly progress = signal<Progress | undefined>(undefined);
  readonly failure = signal<FieldError | undefined>(undefined);
  /** The answer to what is wanted. */
  readonly fresh = computed(() =>
    this.known.value?.key === this.requested.value ? this.known.value?.value : undefined,
  );
  readonly pending = computed(
    () => this.requested.value !== undefined && this.fresh.value === undefined && this.failure.value === undefined,
  );

  constructor(kind: string, lane: QueryQueue) {
    this.#kind = kind;
    this.#lane = lane;
  }

  /** Ask, unless this key is already known, asked for or refused. */
  request(key: string, question: Question<T>, urgent = false): void {
    if (key === this.requested.peek()) return;
    this.#crashes = 0;
    this.requested.value = key;
    this.failure.value = undefined;
    const kept = this.#kept.find((one) => one.key === key);
    if (kept === undefined) this.#put(key, question, urgent);
    else {
      this.#lane.stop(this.#kind);
      this.progress.value = undefined;
      this.known.value = kept;
    }
  }

  /** Stop asking; the latest answer stays. Why something could not be answered goes with what was asked. */
  stop(): void {
    this.#lane.stop(this.#kind);
    batch(() => {
      this.requested.value = undefined;
      this.progress.value = undefined;
      this.failure.value = undefined;
    });
  }

  /** Stop asking, and keep neither an answer nor a failure: nothing former is shown, and all is asked anew. */
  forget(): void {
    batch(() => {
      this.stop();
      this.#kept = [];
      this.known.value = undefined;
    });
  }

  #put(key: string, question: Question<T>, urgent: boolean): void {
    this.#lane.add(
      this.#kind,
      async (stopped) => {
        try {
          const value = await question(stopped, (progress) => (this.progress.value = progress));
          if (stopped.aborted) return;
          this.known.value = { key, value };
          this.#kept = [{ key, value }, ...this.#kept.filter((one) => one.key !== key)].slice(0, KEPT);
        } catch (failure) {
          if (!stopped.aborted) this.#fail(failure, () => this.#put(key, question, urgent));
        } finally {
          if (!stopped.aborted) this.progress.value = undefined;
        }
      },
      urgent,
    );
  }

  #fail(failure: unknown, again: () => void): void {
    const error = asCoreError(failure);
    if (error.code === "crash" && this.#crashes < CRASHES_ALLOWED) {
      this.#crashes += 1;
      queueMicrotask(again);
    } else this.failure.value = failureText(error);
  }
}
