// Which job this tab shows, and whether it may change it.
import { computed, signal } from "@preact/signals";
import { say } from "../../../speech/on_page";

/** `none`: the browser gives no storage, so nothing outlives the page. */
export type Storage = "opening" | "kept" | "none";

export const storage = signal<Storage>("opening");

/** The job that the work in hand is kept as; undefined while the page shows the demo. */
export const currentId = signal<string | undefined>(undefined);

/** Another tab writes this job; here it is only shown. */
export const readOnly = signal(false);

/** Why the latest change could not be kept; undefined while all is kept. */
export const keepingTrouble = signal<string | undefined>(undefined);

/** Why a change is refused here. */
export const READ_ONLY = {
  message: say("This job is open in another tab, so it can only be looked at here."),
  remedy: say("change it there, or choose Open a copy at the top of the page"),
};

/** One word for the state of keeping, which tests read from outside. */
export const keepingState = computed(() => {
  if (storage.value !== "kept") return storage.value;
  return readOnly.value ? "read-only" : "writing";
});
