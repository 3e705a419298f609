// Which changes belong to one movement of the hand, so that undo takes them back together.

/** A pause of the keys longer than this begins another step. */
const PAUSE_MS = 900;

let count = 0;

/** The gesture of one control: begun anew by a press, and by a key after a pause. */
export class Gesture {
  readonly #name: string;
  #group: string;
  #last_ms = -Infinity;
  #pressed = false;

  constructor(name: string) {
    this.#name = name;
    this.#group = this.#fresh();
  }

  /** The pointer goes down: everything until it comes up is one step. */
  press(): void {
    this.#group = this.#fresh();
    this.#pressed = true;
  }

  release(): void {
    this.#pressed = false;
    this.#last_ms = -Infinity;
  }

  /** The group of a change that happens now. */
  group(now_ms: number): string {
    if (!this.#pressed && now_ms - this.#last_ms > PAUSE_MS) this.#group = this.#fresh();
    this.#last_ms = now_ms;
    return this.#group;
  }

  #fresh(): string {
    count += 1;
    return `${this.#name}#${count}`;
  }
}
