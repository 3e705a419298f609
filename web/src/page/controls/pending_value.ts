// What the hand holds while the core has not yet answered: it is drawn at once, and let go when all is settled.
import { type Signal, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";

export interface Held<T> {
  /** What is held, or nothing. */
  readonly value: T | undefined;
  /** Hold until the promise settles, unless something newer is held by then. */
  hold(value: T, settled: Promise<void>): void;
}

class Hand<T> implements Held<T> {
  #count = 0;
  constructor(readonly signal: Signal<T | undefined>) {}

  get value(): T | undefined {
    return this.signal.value;
  }

  hold(value: T, settled: Promise<void>): void {
    const mine = ++this.#count;
    this.signal.value = value;
    void settled.then(() => {
      if (mine === this.#count) this.signal.value = undefined;
    });
  }
}

/** One hand for each field. */
export function useHeld<T = number>(field: string): Held<T> {
  const signal = useSignal<T | undefined>(undefined);
  return useMemo(() => new Hand(signal), [field]);
}
