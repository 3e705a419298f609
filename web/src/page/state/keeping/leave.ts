// Asking before a page is left whose work is kept nowhere. The browser has words of its own for that.
import { computed, effect, signal } from "@preact/signals";
import type { Job } from "../../../contract/types";
import { work } from "../work/work";
import { keepingTrouble, readOnly, storage } from "./mode";

/** The job as it was last saved as a bundle. */
export const bundledJob = signal<Job | undefined>(undefined);

/** The work in hand would end with the page. */
export const atRisk = computed(() => {
  const now = work.value;
  if (now === undefined || now.demo || readOnly.value) return false;
  const isKept = storage.value !== "none" && keepingTrouble.value === undefined;
  return !isKept && now.job !== bundledJob.value;
});

/** Ask from now on. Without a risk nobody listens: a browser that keeps a left page for going back would not. */
export function askBeforeLeaving(): void {
  const ask = (event: BeforeUnloadEvent): void => event.preventDefault();
  effect(() => {
    if (atRisk.value) addEventListener("beforeunload", ask);
    else removeEventListener("beforeunload", ask);
  });
}
