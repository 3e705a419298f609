// The canvas's gamut as a solid with the picture's colours in it, worked out when somebody asks.
import { bytesOf, floatsOf, indicesOf } from "../../contract/buffers";
import type { SolidReply } from "../../contract/types";
import type { SolidMesh, SolidPoints } from "../../solid/types";
import { Asked } from "./colour_asked";
import { solidKey } from "./colour_keys";
import { profilesKept } from "./colour_profiles";
import { lane, openBoth } from "./colour_quiet";
import { theCore } from "./core";
import { work } from "./work";

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
