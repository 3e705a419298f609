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
