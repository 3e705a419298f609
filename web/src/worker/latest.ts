// Newest wins: while one call runs, at most one other waits, and a newer one takes its place.

/** What became of a call: it was answered, or a newer one took its place before it was sent. */
export type Outcome<T> = { kind: "answered"; value: T } | { kind: "dropped" };

/**
 * Wrap a call so that it runs once at a time. A call that is running is always answered, since the core sends
 * only what changed since its last answer; only those that wait can be dropped.
 */
export function latest<A extends unknown[], T>(run: (...args: A) => Promise<T>): (...args: A) => Promise<Outcome<T>> {
  let running = false;
  let waiting: { start: () => void; drop: () => void } | undefined;

  function next(): void {
    const following = waiting;
    waiting = undefined;
    running = following !== undefined;
    following?.start();
  }

  return (...args) =>
    new Promise<Outcome<T>>((resolve, reject) => {
      const start = (): void => {
        run(...args)
          .then((value) => resolve({ kind: "answered", value }), reject)
          .finally(next);
      };
      if (running) {
        waiting?.drop();
        waiting = { start, drop: () => resolve({ kind: "dropped" }) };
      } else {
        running = true;
        start();
      }
    });
}
