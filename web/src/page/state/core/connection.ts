// The one connection to the core, and the listeners to its restart.
import { type Core, startCore } from "../../../worker/client";
import { loading } from "../page/status";
import { language, saidAgain } from "../../../speech/on_page";

let core: Core | undefined;
const restarted = new Set<() => void>();

/** The core; the first call starts it. */
export function getCore(): Core {
  core ??= startCore({
    language: language() === "en" ? undefined : language(),
    onLoading: ({ done, label }) => {
      loading.value = { state: "loading", done, label: saidAgain(label) };
    },
    onRestart: () => {
      for (const listener of restarted) listener();
    },
  });
  return core;
}

/** Call `listener` whenever the core has died and another has been started, which knows nothing yet. */
export function onRestart(listener: () => void): void {
  restarted.add(listener);
}
