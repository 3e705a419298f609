// Detecting that a worker died silently: it holds a lock while it lives, and the page, which waits for
// the same lock, gets it when the worker dies. Where the browser has no Web Locks, only a worker's error events
// report its end.

/** Hold the lock until this worker is gone; resolves to whether it is held. Where locks are refused, as to a page without
 * an origin of its own, there is no watch. */
export function holdLock(name: string, locks: LockManager | undefined): Promise<boolean> {
  if (locks === undefined) return Promise.resolve(false);
  return new Promise((resolve) => {
    const hold = (): Promise<void> => {
      resolve(true);
      return new Promise(() => {});
    };
    locks.request(name, hold).catch(() => resolve(false));
  });
}

/** Call `died` when the present holder of the lock has lost it, unless the watch has ended before. */
export function watchLock(name: string, locks: LockManager | undefined, died: () => void): () => void {
  const watch = new AbortController();
  locks?.request(name, { signal: watch.signal }, died).catch((reason: unknown) => {
    if (!watch.signal.aborted) throw reason;
  });
  return () => watch.abort();
}
