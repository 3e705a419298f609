// The intents side by side, worked out when somebody asks.
import { bytesOf, floatsOf, indicesOf } from "../../../contract/buffers";
import type { IntentsReply, SolidReply } from "../../../contract/types";
import type { SolidMesh, SolidPoints } from "../../../solid/types";
import { theCore } from "../core/connection";
import { lane, openBoth } from "../core/queries";
import { Asked } from "../core/query";
import { work } from "../work/work";
import { intentsKey, solidKey } from "./keys";
import { profilesKept } from "./profiles";

export const askedIntents = new Asked<IntentsReply>("intents", lane);

/** What the comparison of the work in hand depends on. */
export function intentsWanted(): string | undefined {
  const now = work.value;
  return now && intentsKey(now.job, { picture: now.picture, profiles: profilesKept.value });
}

/** Compare the intents on the picture in hand. */
export function compareIntents(): void {
  const now = work.value;
  const key = intentsWanted();
  if (now === undefined || key === undefined) return;
  if (askedIntents.failure.peek() !== undefined) askedIntents.stop();
  askedIntents.want(key, async (signal, onProgress) => {
    await openBoth();
    return (await theCore().call("intents", { job: now.job }, { signal, onProgress })).reply;
  });
}

// The canvas's gamut as a solid with the picture's colours in it, worked out when somebody asks.

export interface Gamut {
  readonly mesh: SolidMesh;
  readonly points: SolidPoints;
  readonly volume: number;
}

export const askedSolid = new Asked<Gamut>("solid", lane);

export function wantSolid(): void {
  const now = work.value;
  if (now === undefined) return;
  const key = solidKey(now.job, { picture: now.picture, profiles: profilesKept.value });
  askedSolid.want(key, async (signal) => {
    await openBoth();
    const { reply, buffers } = await theCore().call("solid", { job: now.job }, { signal });
    return gamutOf(reply, buffers);
  });
}

function gamutOf(reply: SolidReply, buffers: readonly ArrayBuffer[]): Gamut {
  return {
    mesh: {
      lab: floatsOf(reply.lab, buffers),
      srgb: bytesOf(reply.colours, buffers),
      triangles: indicesOf(reply.triangles, buffers),
    },
    points: {
      lab: floatsOf(reply.point_lab, buffers),
      printedLab: floatsOf(reply.point_printed_lab, buffers),
      srgb: bytesOf(reply.point_colours, buffers),
      share: floatsOf(reply.point_share, buffers),
      difference: floatsOf(reply.point_difference, buffers),
    },
    volume: reply.volume,
  };
}
