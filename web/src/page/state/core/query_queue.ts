// The order in which questions reach the core: one at a time, the newest of its kind, and none while
// the job itself changes, because a change must never wait.

export type Ask = (signal: AbortSignal) => Promise<void>;

interface Question {
  readonly kind: string;
  readonly ask: Ask;
  /** Not put off, as the page is wrong without the answer. */
  readonly urgent: boolean;
  readonly stop: AbortController;
}

export class QueryQueue {
  readonly #quiet: (urgent: boolean) => Promise<void>;
  #waiting: readonly Question[] = [];
  #running: Question | undefined;
  #going = false;

  /** `quiet` resolves when the core is free for a question; an urgent one waits for changes of the job alone. */
  constructor(whenIdle: (urgent: boolean) => Promise<void>) {
    this.#quiet = whenIdle;
  }

  /** Add a question at the end; an earlier one of its kind is dropped. */
  add(kind: string, ask: Ask, urgent = false): void {
    this.stop(kind);
    this.#waiting = [...this.#waiting, { kind, ask, urgent, stop: new AbortController() }];
    if (!this.#going) void this.#go();
  }

  /** Drop the question of a kind, whether it waits or runs. */
  stop(kind: string): void {
    this.#waiting = this.#waiting.filter((question) => question.kind !== kind);
    if (this.#running?.kind === kind) this.#running.stop.abort();
  }

  async #go(): Promise<void> {
    this.#going = true;
    while (this.#waiting.length > 0) {
      await this.#quiet(this.#waiting.some(({ urgent }) => urgent));
      // The waiting questions may have changed meanwhile.
      const next = this.#waiting.find(({ urgent }) => urgent) ?? this.#waiting[0];
      this.#waiting = this.#waiting.filter((question) => question !== next);
      this.#running = next;
      await next?.ask(next.stop.signal);
      this.#running = undefined;
    }
    this.#going = false;
  }
}
