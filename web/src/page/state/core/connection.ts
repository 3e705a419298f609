// The one connection to the core, and the listeners to its restart.
import { type Core, startCore } from "../../../worker/client";
import { loading, silent } from "../page/status";
import { language, saidAgain } from "../../../speech/on_page";

let core: Core | undefined;
const restarted = new Set<() => void>();
const forgotten = new Set<() => void>();

/** The core; the first call starts it. */
export function getCore(): Core {
  core ??= startCore({
    language: language() === "en" ? undefined : language(),
    onLoading: ({ done, label }) => {
      // What else the start needs has failed, and that is told until the person tries again.
      if (loading.peek().state === "failed") return;
      loading.value = { state: "loading", done, label: saidAgain(label) };
    },
    onSilence: (silent_ms) => {
      silent.value = silent_ms > 0;
    },
    onRestart: () => {
      for (const listener of restarted) listener();
    },
  });
  return core;
}

/** End the core, which does not answer, and start another; the work in hand is shown in it anew. */
export function restartCore(): void {
  core?.restart();
}

/** Let go of a core that has ended for good; the next call starts another. */
export function forgetCore(): void {
  core?.end();
  core = undefined;
  for (const listener of forgotten) listener();
}

/** Call `listener` when a core was let go of: whatever it had open is gone. */
export function onForgotten(listener: () => void): void {
  forgotten.add(listener);
}

/** Call `listener` whenever the core has died and another has been started, which knows nothing yet. */
export function onRestart(listener: () => void): void {
  restarted.add(listener);
}
