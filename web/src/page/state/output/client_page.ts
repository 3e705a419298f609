// The output of the client page: the variants on offer, the message, and the file.
import { signal } from "@preact/signals";
import viewerAddress from "../../../../../pycore/client/data/viewer.js?url";
import type { ClientParams, ClientReport, Job, Variant } from "../../../contract/types";
import { dayOf } from "../../../day";
import { openProfileInCore } from "../colour/profiles";
import { listed } from "../compare/plan";
import { getCore } from "../core/connection";
import { Maker } from "./making";
import { clientWords } from "../work/beside_job";
import { settledWork } from "../work/run";
import { surroundings } from "../page/surroundings";

export const clientPage = new Maker<ClientReport>();

/** Whether the page offers the comparison's variants or the job alone. */
export const offersComparison = signal(false);

/** Make the page and hand it to the downloads; `variants` are those of a comparison, where there are any. */
export function makeClientPage(variants: readonly Variant[]): Promise<void> {
  return clientPage.run(async ({ stopped, onProgress, deliver }) => {
    const now = await settledWork();
    if (now === undefined) return;
    const offered = offeredOf(variants, now.job);
    for (const name of new Set(offered.map(({ job }) => job.colour.profile))) await openProfileInCore(name);
    const viewer = await fetch(viewerAddress, { signal: stopped });
    if (!viewer.ok) throw new Error(`the viewer's program did not come: ${viewer.status}`);
    const params = {
      variants: offered,
      surroundings: surroundings.value,
      message: clientWords.value,
      date: dayOf(new Date()),
    };
    const buffer = await viewer.arrayBuffer();
    deliver(await getCore().call("client", params, { signal: stopped, onProgress, buffer }), "text/html");
  });
}

/** The job alone where there is nothing to choose from. */
function offeredOf(variants: readonly Variant[], job: Job): ClientParams["variants"] {
  return variants.length < 2 ? [variants[0] ?? { label: "", job }] : listed(variants);
}
