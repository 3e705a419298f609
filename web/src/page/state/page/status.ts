// The page's status: loading, the latest announcement, and the moments of first paint and first canvas.
import { signal } from "@preact/signals";
import { say } from "../../../speech/on_page";

export type Loading =
  | { readonly state: "loading"; readonly done: number; readonly label: string }
  | { readonly state: "ready" }
  | { readonly state: "failed"; readonly got: string; readonly remedy: string };

export const loading = signal<Loading>({ state: "loading", done: 0, label: say("Starting") });

/** The core has not been heard for long while it works on something. */
export const silent = signal(false);

/** The page itself has been painted. */
export const painted = signal(false);

/** The latest announcement. */
export const announcement = signal("");

let clearing: ReturnType<typeof setTimeout> | undefined;

/** Announce something that needs no answer; it disappears after a while. */
export function announce(text: string, for_ms = 12_000): void {
  announcement.value = text;
  clearTimeout(clearing);
  clearing = setTimeout(closeAnnouncement, for_ms);
}

/** Take the announcement away. */
export function closeAnnouncement(): void {
  clearTimeout(clearing);
  announcement.value = "";
}

/** A page in a hidden tab is never painted; what waits for its paint then begins after this time. */
const PAINT_WAIT_MS = 1500;

/**
 * Resolves when the page has painted, and marks the moment. Heavy work waits for it, because Python and the
 * stage would otherwise delay the first paint.
 */
export async function firstPaint(): Promise<void> {
  await new Promise<void>((resolve) => {
    const observer = new PerformanceObserver(() => resolve());
    observer.observe({ type: "paint", buffered: true });
    setTimeout(resolve, PAINT_WAIT_MS);
  });
  performance.mark("tuckfold:first-paint");
}

/** The first canvas is on the stage. */
export const firstShown = signal(false);

/** Mark once that a canvas is on the stage, after the frame that draws it; it may be one of an earlier time. */
export function markFirstView(): void {
  markOnce("view", "drawn", "tuckfold:first-view");
}

/** Mark once that the first canvas that the core has made is on the stage, after the frame that draws it. */
export function markShown(): void {
  markOnce("state", "shown", "tuckfold:shown", () => (firstShown.value = true));
}

function markOnce(key: string, value: string, mark: string, act = (): unknown => undefined): void {
  const root = document.documentElement;
  if (root.dataset[key] === value) return;
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      if (root.dataset[key] === value) return;
      root.dataset[key] = value;
      performance.mark(mark);
      act();
    }),
  );
}
