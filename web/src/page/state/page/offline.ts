// Keeping the page for visits without a network, and taking a new version when the person wants it.
import { effect, signal } from "@preact/signals";
import { trustedAddress } from "../../../worker/trusted_address";
import { firstShown } from "./status";

/** As `src/service/service.ts` hears it. */
const TAKE_OVER = "take over";

/** Shows the new version, where there is one that this page does not show yet. */
export const newVersion = signal<(() => void) | undefined>(undefined);

/** Keep the site once the first canvas is there, so that the first visit does not wait for it. */
export function keepForOffline(): void {
  // Absent outside secure contexts, although the types do not say so.
  if (!("serviceWorker" in navigator)) return;
  const { serviceWorker } = navigator;
  const end = effect(() => {
    if (!firstShown.value) return;
    queueMicrotask(() => end());
    register(serviceWorker).catch((reason: unknown) => {
      // The page works without: a browser may refuse, or a file did not come.
      console.info(`This page is not kept for visits without a network: ${String(reason)}`);
    });
  });
}

async function register(serviceWorker: ServiceWorkerContainer): Promise<void> {
  const program = trustedAddress(new URL("service.js", document.baseURI));
  const registration = await serviceWorker.register(program, { updateViaCache: "none" });
  // A browser that blocks service workers may answer with nothing.
  if (!(registration instanceof ServiceWorkerRegistration)) return;
  const offer = (worker: ServiceWorker): void => {
    newVersion.value = () => worker.postMessage(TAKE_OVER);
  };
  // The first version that is kept is the one that this page shows.
  let shown = registration.active !== null;
  serviceWorker.addEventListener("controllerchange", () => {
    if (wanted) location.reload();
    else if (shown) newVersion.value = () => location.reload();
    shown = true;
  });
  if (registration.waiting !== null) offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const { installing } = registration;
    installing?.addEventListener("statechange", () => {
      if (installing.state === "installed" && registration.active !== null) offer(installing);
    });
  });
}

let wanted = false;

/** Load the page again with the new version; the work is kept. */
export function takeNewVersion(): void {
  wanted = true;
  newVersion.value?.();
}
