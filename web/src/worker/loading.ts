// Telling how far loading is, by the files that have been fetched.

/** What is fetched, by its path in the folder of the runtime, in the order in which it usually comes. */
export type Parts = readonly (readonly [file: RegExp, label: string])[];

/** Starting what was fetched takes about as long as this many of the parts. */
const STARTING_PARTS = 3;

/** Tell of every part as it has been fetched; returns what ends the watch. */
export function watchParts(folder: string, parts: Parts, onLoading: (done: number, label: string) => void): () => void {
  let fetched = 0;
  const observer = new PerformanceObserver((list) => {
    for (const { name } of list.getEntries()) {
      if (!name.startsWith(folder)) continue;
      const part = parts.find(([file]) => file.test(name.slice(folder.length)));
      if (part === undefined) continue;
      fetched += 1;
      onLoading(Math.min(fetched, parts.length) / (parts.length + STARTING_PARTS), part[1]);
    }
  });
  observer.observe({ type: "resource" });
  return () => observer.disconnect();
}

/** How far loading is when everything has been fetched. */
export function fetchedShare(parts: Parts): number {
  return parts.length / (parts.length + STARTING_PARTS);
}
