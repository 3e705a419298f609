// Answers that the user asks for: the intents side by side, and the gamut as a solid.
import { bytesOf, floatsOf, indicesOf } from "../../../contract/buffers";
import type { IntentsReply, SolidReply } from "../../../contract/types";
import type { SolidMesh, SolidPoints } from "../../../solid/types";
import { getCore } from "../core/connection";
import { queryQueue, openWorkInCore } from "../core/queries";
import { Query } from "../core/query";
import { NO_PICTURE } from "../work/pictures";
import { work } from "../work/work";
import { intentsKey, solidKey } from "./keys";
import { profilesKept } from "./profiles";

export const intentsQuery = new Query<IntentsReply>("intents", queryQueue);

/** The key of the intents of the current work. */
export function intentsQueryKey(): string | undefined {
  const now = work.value;
  return now && intentsKey(now.job, { picture: now.picture, profiles: profilesKept.value });
}

/** Compare the intents on the current picture. */
export function compareIntents(): void {
  const now = work.value;
  const key = intentsQueryKey();
  if (now === undefined || key === undefined) return;
  if (intentsQuery.failure.peek() !== undefined) intentsQuery.stop();
  intentsQuery.request(key, async (signal, onProgress) => {
    await openWorkInCore(signal);
    return (await getCore().call("intents", { job: now.job }, { signal, onProgress })).reply;
  });
}

export interface SolidData {
  readonly mesh: SolidMesh;
  readonly points: SolidPoints;
  readonly volume: number;
}

export const solidQuery = new Query<SolidData>("solid", queryQueue);

export function requestSolid(): void {
  const now = work.value;
  if (now === undefined || now.picture === NO_PICTURE) return;
  const key = solidKey(now.job, { picture: now.picture, profiles: profilesKept.value });
  solidQuery.request(key, async (signal) => {
    await openWorkInCore(signal);
    const { reply, buffers } = await getCore().call("solid", { job: now.job }, { signal });
    return gamutOf(reply, buffers);
  });
}

function gamutOf(reply: SolidReply, buffers: readonly ArrayBuffer[]): SolidData {
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
