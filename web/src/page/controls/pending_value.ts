// A value that the page draws before the core has answered. It ends when the change has settled.
import { type Signal, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";

export interface PendingValue<T> {
  /** The pending value, or nothing. */
  readonly value: T | undefined;
  /** Show the value until the promise settles, unless a newer value is pending by then. */
  showUntil(value: T, settled: Promise<void>): void;
}

class SignalPendingValue<T> implements PendingValue<T> {
  #count = 0;
  constructor(readonly signal: Signal<T | undefined>) {}

  get value(): T | undefined {
    return this.signal.value;
  }

  showUntil(value: T, settled: Promise<void>): void {
    const mine = ++this.#count;
    this.signal.value = value;
    void settled.then(() => {
      if (mine === this.#count) this.signal.value = undefined;
    });
  }
}

/** The pending value of the component that calls it. */
export function usePendingValue<T = number>(): PendingValue<T> {
  const signal = useSignal<T | undefined>(undefined);
  return useMemo(() => new SignalPendingValue(signal), [signal]);
}
