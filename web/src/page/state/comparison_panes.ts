// From the core's reply to what the stage takes: what several variants share stays one object.
import type { CompareReply } from "../../contract/types";
import type { StagePane } from "../../stage/types";
import { lookOf } from "./colour_look";
import { piecesOf } from "./pieces";
import { foldOf, textureOf } from "./receive";

/** One pane a variant. */
export function panesOf(reply: CompareReply, buffers: readonly ArrayBuffer[]): readonly StagePane[] {
  const textures = reply.textures.map((texture) => textureOf(texture, buffers));
  const folds = reply.folds.map((fold) => foldOf(fold, buffers));
  const looks = reply.looks.map((look) => lookOf(look, buffers));
  return reply.variants.map((variant) => {
    const [texture, fold, look] = [textures[variant.texture], folds[variant.fold], looks[variant.look]];
    if (texture === undefined || fold === undefined) throw new Error(`no texture or fold for ${variant.label}`);
    return {
      pieces: piecesOf(variant.job, variant.panels, { fold, texture, inked: variant.inked }),
      ...(look === undefined ? {} : { look }),
    };
  });
}
