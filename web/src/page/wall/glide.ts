// Folding by itself: from here to there at an even pace.

export class Glide {
  readonly #show: (value: number) => void;
  #frame = 0;

  constructor(show: (value: number) => void) {
    this.#show = show;
  }

  /** Move from one value to another; the whole way from 0 to 1 takes `whole_ms`, and nothing is at once. */
  go(from: number, to: number, whole_ms: number): void {
    this.stop();
    const length_ms = Math.abs(to - from) * whole_ms;
    if (length_ms === 0) {
      this.#show(to);
      return;
    }
    let start_ms: number | undefined;
    const draw = (now_ms: number): void => {
      start_ms ??= now_ms;
      const share = Math.min(1, (now_ms - start_ms) / length_ms);
      this.#show(share === 1 ? to : from + (to - from) * share);
      if (share < 1) this.#frame = requestAnimationFrame(draw);
    };
    this.#frame = requestAnimationFrame(draw);
  }

  stop(): void {
    cancelAnimationFrame(this.#frame);
  }
}
