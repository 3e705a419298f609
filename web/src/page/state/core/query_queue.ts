// The order in which questions about colour reach the core: one at a time, the newest of its kind, and none while
// the job itself is being changed, for that must never wait.

export type Ask = (signal: AbortSignal) => Promise<void>;

interface Question {
  readonly kind: string;
  readonly ask: Ask;
  /** The page is wrong without the answer: it is not put off. */
  readonly urgent: boolean;
  readonly stop: AbortController;
}

export class Lane {
  readonly #quiet: (urgent: boolean) => Promise<void>;
  #waiting: readonly Question[] = [];
  #running: Question | undefined;
  #going = false;

  /** `quiet` resolves when the core is free for a question; an urgent one waits for changes of the job alone. */
  constructor(quiet: (urgent: boolean) => Promise<void>) {
    this.#quiet = quiet;
  }

  /** Put a question at the end; what was asked before of its kind is given up. */
  put(kind: string, ask: Ask, urgent = false): void {
    this.stop(kind);
    this.#waiting = [...this.#waiting, { kind, ask, urgent, stop: new AbortController() }];
    if (!this.#going) void this.#go();
  }

  /** Give up what was asked of a kind. */
  stop(kind: string): void {
    this.#waiting = this.#waiting.filter((question) => question.kind !== kind);
    if (this.#running?.kind === kind) this.#running.stop.abort();
  }

  async #go(): Promise<void> {
    this.#going = true;
    while (this.#waiting.length > 0) {
      await this.#quiet(this.#waiting.some(({ urgent }) => urgent));
      // What waits may have changed meanwhile.
      const next = this.#waiting.find(({ urgent }) => urgent) ?? this.#waiting[0];
      this.#waiting = this.#waiting.filter((question) => question !== next);
      this.#running = next;
      await next?.ask(next.stop.signal);
      this.#running = undefined;
    }
    this.#going = false;
  }
}
