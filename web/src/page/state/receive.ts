// From the core's replies to what the stage and the page show.
import { bytesOf, floatsOf, imageOf, indicesOf } from "../../contract/buffers";
import type { FoldReply, OpenReply, ShowReply, Texture } from "../../contract/types";
import type { StageFold, StageTexture } from "../../stage/types";
import type { OpenPicture, Shown } from "./work";

/** What is on the stage after a reply; parts that the reply leaves out stay as they were. */
export function received(reply: ShowReply, buffers: readonly ArrayBuffer[], before: Shown | undefined): Shown {
  const texture = reply.texture ? textureOf(reply.texture, buffers) : before?.texture;
  const fold = reply.fold ? foldOf(reply.fold, buffers) : before?.fold;
  return {
    layout: reply.layout,
    ...(texture ? { texture } : {}),
    // In the picture's own space only the tables of a look can bring it to the screen.
    pictureEncoded: reply.texture
      ? reply.texture.pixels.state === "picture_encoded"
      : (before?.pictureEncoded ?? false),
    ...(fold ? { fold } : {}),
    panels: reply.panels,
    foldNotes: reply.fold?.notes ?? before?.foldNotes ?? [],
    bulk: reply.fold?.bulk ?? before?.bulk ?? [],
    worker_ms: reply.worker_ms,
  };
}

export function textureOf(texture: Texture, buffers: readonly ArrayBuffer[]): StageTexture {
  const [heightPx = 0, widthPx = 0] = texture.pixels.shape;
  return { pixels: bytesOf(texture.pixels, buffers), widthPx, heightPx, inked: texture.inked };
}

export function foldOf(fold: FoldReply, buffers: readonly ArrayBuffer[]): StageFold {
  return {
    at: fold.at,
    positions: floatsOf(fold.positions, buffers),
    uv: floatsOf(fold.uv, buffers),
    triangles: indicesOf(fold.triangles, buffers),
    outlines: indicesOf(fold.outlines, buffers),
    creaseCount: fold.crease_count,
    stages: fold.stages,
  };
}

/** An opened picture with its small copy. */
export function openedPicture(id: number, reply: OpenReply, buffers: readonly ArrayBuffer[]): OpenPicture {
  return { id, info: reply.info, thumbnail: imageOf(reply.thumbnail, buffers) };
}
