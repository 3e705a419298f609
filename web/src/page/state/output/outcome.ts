// How work has come out that is about the job and picture in hand.
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { type Work, work } from "../work/work";

interface Idle {
  readonly state: "idle";
}

/** The states of some work, one after another. A failure holds only for the job and picture that it is of. */
export class Outcome<State extends { readonly state: string }> {
  readonly #latest = signal<State | Idle>({ state: "idle" });
  /** Of what the latest state is. */
  #of = "";

  readonly now: ReadonlySignal<State | Idle> = computed(() => {
    const latest = this.#latest.value;
    return latest.state === "failed" && markOf(work.value) !== this.#of ? { state: "idle" } : latest;
  });

  set(state: State | Idle): void {
    this.#of = markOf(work.peek());
    this.#latest.value = state;
  }
}

/** A job and its picture; the same job shown anew is no other. */
function markOf(now: Work | undefined): string {
  return JSON.stringify([now?.picture, now?.job]);
}
