// One kind of question about colour: what is known, what is asked, how far it is, and why it could not be answered.
import { computed, signal } from "@preact/signals";
import type { Progress } from "../../../contract/types";
import type { Lane } from "./query_queue";
import { asCoreError } from "../../../worker/errors";
import type { FieldMessage } from "../page/fields";

/** So many answers are kept, so that undo and going to and fro ask nothing. */
const KEPT = 4;
/** So often a question that the core died of is asked again. */
const CRASHES_ALLOWED = 1;

export interface Known<T> {
  readonly key: string;
  readonly value: T;
}

export type Question<T> = (signal: AbortSignal, onProgress: (progress: Progress) => void) => Promise<T>;

export class Asked<T> {
  readonly #kind: string;
  readonly #lane: Lane;
  #kept: readonly Known<T>[] = [];
  #crashes = 0;
  /** The latest answer; it stays until the next one comes. */
  readonly known = signal<Known<T> | undefined>(undefined);
  readonly wanted = signal<string | undefined>(undefined);
  readonly progress = signal<Progress | undefined>(undefined);
  readonly failure = signal<FieldMessage | undefined>(undefined);
  /** The answer to what is wanted. */
  readonly fresh = computed(() => (this.known.value?.key === this.wanted.value ? this.known.value?.value : undefined));
  readonly pending = computed(
    () => this.wanted.value !== undefined && this.fresh.value === undefined && this.failure.value === undefined,
  );

  constructor(kind: string, lane: Lane) {
    this.#kind = kind;
    this.#lane = lane;
  }

  /** Ask, unless this very thing is known, asked for or refused already. */
  want(key: string, question: Question<T>, urgent = false): void {
    if (key === this.wanted.peek()) return;
    this.#crashes = 0;
    this.wanted.value = key;
    this.failure.value = undefined;
    const kept = this.#kept.find((one) => one.key === key);
    if (kept === undefined) this.#put(key, question, urgent);
    else {
      this.#lane.stop(this.#kind);
      this.known.value = kept;
    }
  }

  /** Want nothing any more; what is known stays. */
  stop(): void {
    this.#lane.stop(this.#kind);
    this.wanted.value = undefined;
    this.progress.value = undefined;
  }

  #put(key: string, question: Question<T>, urgent: boolean): void {
    this.#lane.put(
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
    const { code, field, expected, got, remedy } = asCoreError(failure);
    if (code === "crash" && this.#crashes < CRASHES_ALLOWED) {
      this.#crashes += 1;
      queueMicrotask(again);
    } else this.failure.value = { field, expected, got, remedy };
  }
}
