// The output of the client page: the variants on offer, the message, and the file.
import { signal } from "@preact/signals";
import viewerAddress from "../../../../../pycore/client/data/viewer.js?url";
import type { ClientParams, ClientReport, Job, Variant } from "../../../contract/types";
import { dayOf } from "../../../day";
import { openProfileInCore } from "../colour/profiles";
import { listed } from "../compare/plan";
import { Maker } from "./making";
import { clientWords } from "../work/beside_job";
import { placedWall } from "../photo/measured";
import { openWallInCore } from "../photo/open_wall";
import { wallWork } from "../photo/wall_work";
import { surroundings } from "../page/surroundings";

export const clientPage = new Maker<ClientReport>();

/** Whether the page offers the variants where some hang side by side, or the job alone: as a person has chosen. */
export const offersComparison = signal(true);

/** A reduced copy of the wall's photograph goes into the page. */
export const showsWall = signal(false);
/** The client may move the piece there. */
export const wallIsFree = signal(true);

/** The measured wall for the page, where it is to go in. */
function offeredWall(of: Job): ClientParams["wall"] {
  const now = wallWork.peek();
  const placed = now === undefined || !showsWall.peek() ? undefined : placedWall(now, of);
  if (now === undefined || placed === undefined) return undefined;
  const { references, at_mm, room_light = 1, shadow = 0 } = placed;
  const wall = { references, at_mm, room_light, shadow, colours: "printed" as const };
  const floor = now.edges.find(({ kind }) => kind === "floor");
  return { ...wall, is_free: wallIsFree.peek(), ...(floor === undefined ? {} : { floor_mm: floor.atMm }) };
}

/** Make the page and hand it to the downloads; `variants` are those of a comparison, where there are any. */
export function makeClientPage(variants: readonly Variant[]): Promise<void> {
  return clientPage.run(async ({ now, ask, stopped, deliver }) => {
    const offered = offeredOf(variants, now.job);
    for (const name of new Set(offered.map(({ job }) => job.colour.profile))) await openProfileInCore(name);
    const viewer = await fetch(viewerAddress, { signal: stopped });
    if (!viewer.ok) throw new Error(`the viewer's program did not come: ${viewer.status}`);
    const wall = offeredWall(now.job);
    if (wall !== undefined) await openWallInCore();
    const params = {
      variants: offered,
      surroundings: surroundings.value,
      message: clientWords.value,
      date: dayOf(new Date()),
      ...(wall === undefined ? {} : { wall }),
    };
    const buffer = await viewer.arrayBuffer();
    deliver(await ask("client", params, { buffer }), "text/html");
  });
}

/** The job alone where there is nothing to choose from. */
function offeredOf(variants: readonly Variant[], job: Job): ClientParams["variants"] {
  return variants.length < 2 ? [variants[0] ?? { label: "", job }] : listed(variants);
}
