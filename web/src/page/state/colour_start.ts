// What about colour begins when the page does.
import { effect } from "@preact/signals";
import { askedClip, keepClip } from "./colour/clip";
import { asked, askedWithout, keepLooks } from "./colour/look";
import { watchHand } from "./core/queries";

/** Follow the work in hand from now on. */
export function startColour(): void {
  watchHand();
  keepLooks();
  keepClip();
  // For whoever watches the page from outside: whether what is known of colour is that of the work in hand.
  effect(() => {
    const pending = asked.pending.value || askedWithout.pending.value || askedClip.pending.value;
    document.documentElement.dataset["colour"] = pending ? "asking" : "known";
  });
}
