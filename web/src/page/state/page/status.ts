// What the page says quietly: how far loading is, and what has just happened.
import { signal } from "@preact/signals";

export type Loading =
  | { readonly state: "loading"; readonly done: number; readonly label: string }
  | { readonly state: "ready" }
  | { readonly state: "failed"; readonly got: string; readonly remedy: string };

export const loading = signal<Loading>({ state: "loading", done: 0, label: "Starting" });

/** The page itself has been painted. */
export const painted = signal(false);

/** The latest quiet message. */
export const quiet = signal("");

let clearing: ReturnType<typeof setTimeout> | undefined;

/** Say something that needs no answer; it goes by itself. */
export function tell(text: string, for_ms = 12_000): void {
  quiet.value = text;
  clearTimeout(clearing);
  clearing = setTimeout(() => {
    quiet.value = "";
  }, for_ms);
}

// Moments that are measured: the page's first paint, and the first canvas that Python made.

/** A page in a hidden tab is never painted; what waits for its paint then begins after this time. */
const PAINT_WAIT_MS = 1500;

/**
 * Resolves when the page has painted, and marks the moment. Whatever is heavy waits for it: Python and the
 * wall would otherwise take the processor from the first paint.
 */
export async function firstPaint(): Promise<void> {
  await new Promise<void>((resolve) => {
    const painted = new PerformanceObserver(() => resolve());
    painted.observe({ type: "paint", buffered: true });
    setTimeout(resolve, PAINT_WAIT_MS);
  });
  performance.mark("tuckfold:first-paint");
}

/** The first canvas is on the stage, and what can wait for it may begin. */
export const firstShown = signal(false);

/** The first canvas is on the stage: said once, after the frame that draws it. */
export function markShown(): void {
  const root = document.documentElement;
  if (root.dataset["state"] === "shown") return;
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      if (root.dataset["state"] === "shown") return;
      root.dataset["state"] = "shown";
      performance.mark("tuckfold:shown");
      firstShown.value = true;
    }),
  );
}
