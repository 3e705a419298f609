// Which changes belong to one gesture of the user, so that undo takes them back together.

/** A pause of the keys longer than this begins another step. */
const PAUSE_MS = 900;

let count = 0;

/** The gesture of one control: a press starts a new one, and so does a key after a pause. */
export class Gesture {
  readonly #name: string;
  #current: string;
  #last_ms = -Infinity;
  #pressed = false;

  constructor(name: string) {
    this.#name = name;
    this.#current = this.#fresh();
  }

  /** The pointer goes down: everything until it comes up is one step. */
  press(): void {
    this.#current = this.#fresh();
    this.#pressed = true;
  }

  release(): void {
    this.#pressed = false;
    this.#last_ms = -Infinity;
  }

  /** The id of the gesture that a change at this time belongs to. */
  changeId(now_ms: number): string {
    if (!this.#pressed && now_ms - this.#last_ms > PAUSE_MS) this.#current = this.#fresh();
    this.#last_ms = now_ms;
    return this.#current;
  }

  #fresh(): string {
    count += 1;
    return `${this.#name}#${count}`;
  }
}
