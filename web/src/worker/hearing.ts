// Whether the worker still hears: while calls wait it is asked now and then, and it answers between two steps of its work.
import type { BrowserServices } from "./core";

const ASK_MS = 5000;
/** A step may take this long on a slow machine; longer is worth a word. */
const SILENT_MS = 20_000;

interface Asked {
  /** Whether a call waits, so that silence means something. */
  isAsked(): boolean;
  ping(): void;
  onSilence(silent_ms: number): void;
}

export class Hearing {
  readonly #now: () => number;
  readonly #asked: Asked;
  /** Since when an answer is waited for. */
  #since: number | undefined;
  #told = false;
  readonly end: () => void;

  constructor({ now, every }: Pick<BrowserServices, "now" | "every">, asked: Asked) {
    this.#now = now;
    this.#asked = asked;
    this.end = every(ASK_MS, () => this.#ask());
  }

  /** Something came from the worker. */
  heard(): void {
    this.#since = undefined;
    if (this.#told) this.#asked.onSilence(0);
    this.#told = false;
  }

  #ask(): void {
    if (!this.#asked.isAsked()) {
      this.heard();
      return;
    }
    if (this.#since === undefined) {
      this.#since = this.#now();
      this.#asked.ping();
      return;
    }
    const silent_ms = this.#now() - this.#since;
    if (silent_ms < SILENT_MS) return;
    this.#told = true;
    this.#asked.onSilence(silent_ms);
  }
}
