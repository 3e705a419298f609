// Between the history on the page and the steps in the database. Pure, but for the numbers that steps get.
import type { Job } from "../../../contract/types";
import type { History, Step } from "../work/history";
import { advance, type Queue, startNext } from "../work/queue";
import type { Work } from "../work/work";
import type { StepEntry } from "./records";

/** Steps older than the third picture back are not kept: each picture has its bytes. */
const PICTURES_KEPT = 3;

/** The numbers of the steps that this page has met. A step never changes, so a number stands for its content. */
export class StepNumbers {
  readonly #numbers = new WeakMap<Step<Work>, number>();
  #latest = 0;

  numberOf(step: Step<Work>): number {
    const known = this.#numbers.get(step);
    if (known !== undefined) return known;
    this.#latest += 1;
    this.#numbers.set(step, this.#latest);
    return this.#latest;
  }

  /** A step that came from the database. */
  enter(step: Step<Work>, number: number): void {
    this.#numbers.set(step, number);
    this.#latest = Math.max(this.#latest, number);
  }
}

/** The history with what still waits for the core done too; undefined where that changes nothing. */
export function candidateOf(history: History<Work> | undefined, queue: Queue): Work | undefined {
  let ahead = history;
  let rest: Queue = { running: [], waiting: [...queue.running, ...queue.waiting] };
  for (rest = startNext(rest); rest.running.length > 0; rest = startNext(rest)) {
    // A job that is being opened is in the database itself, or comes from a file.
    if (rest.running[0]?.kind === "load") continue;
    ahead = advance(ahead, rest.running) ?? ahead;
  }
  const [before, after] = [history?.present.state, ahead?.present.state];
  return after === before ? undefined : after;
}

/** The steps that are kept, oldest first, and the place of the present one. The demo is nobody's work. */
export function keptSteps(history: History<Work>): {
  readonly steps: readonly Step<Work>[];
  readonly present: number;
} {
  const past: Step<Work>[] = [];
  const pictures = new Set([history.present.state.picture]);
  const fits = ({ state }: Step<Work>): boolean => {
    if (state.demo) return false;
    pictures.add(state.picture);
    return pictures.size <= PICTURES_KEPT;
  };
  for (const step of history.past.toReversed()) {
    if (!fits(step)) break;
    past.unshift(step);
  }
  const future: Step<Work>[] = [];
  for (const step of history.future) {
    if (!fits(step)) break;
    future.push(step);
  }
  return { steps: [...past, history.present, ...future], present: past.length };
}

/** A step as it is kept; `keyOf` gives a picture's key. */
export function entryOf({ state, label, gesture }: Step<Work>, keyOf: (picture: number) => string): StepEntry {
  const { job, picture, proposed, offered } = state;
  return {
    job: JSON.stringify(job),
    picture: keyOf(picture),
    label,
    ...(gesture === undefined ? {} : { gesture }),
    ...(proposed === undefined ? {} : { proposed }),
    ...(offered === undefined ? {} : { offered: keyOf(offered) }),
  };
}

/** A kept step with its job, once the core has checked that. */
export function stepOf(entry: StepEntry, job: Job, pictureOf: (key: string) => number): Step<Work> {
  const { picture, label, gesture, proposed, offered } = entry;
  const state: Work = {
    job,
    picture: pictureOf(picture),
    demo: false,
    ...(proposed === undefined ? {} : { proposed }),
    ...(offered === undefined ? {} : { offered: pictureOf(offered) }),
  };
  // A gesture ends with the page; the same name may come again.
  return { state, label, ...(gesture === undefined ? {} : { gesture: `kept ${gesture}` }) };
}
