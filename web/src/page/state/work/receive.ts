// Converts the core's replies to the inputs of the stage and the page. Parts that variants share stay one object.
import { bytesOf, floatsOf, halvesOf, imageOf, indicesOf } from "../../../contract/buffers";
import type {
  CompareReply,
  FoldReply,
  Job,
  Layout,
  LookReply,
  OpenReply,
  PanelPlace,
  ShowReply,
  Texture,
} from "../../../contract/types";
import type { Look, StageFold, StagePane, StagePiece, StageSizes, StageTexture } from "../../../stage/types";
import type { OpenPicture, Shown } from "./work";

/** The content of the stage after a reply; parts that the reply leaves out stay as they were. */
export function received(reply: ShowReply, buffers: readonly ArrayBuffer[], before: Shown | undefined): Shown {
  const made = reply.texture ? textureOf(reply.texture, buffers) : before?.texture;
  const texture = reply.layout.use === undefined ? bareCanvas(reply.layout, reply.panels) : made;
  const fold = reply.fold ? foldOf(reply.fold, buffers) : before?.fold;
  const sent = { ...before?.sent, ...reply };
  return {
    sent,
    layout: sent.layout,
    bars: sent.bars,
    ...(texture ? { texture } : {}),
    // In the picture's own space only the tables of a look can bring it to the screen.
    pictureEncoded: sent.texture?.pixels.state === "picture_encoded",
    ...(fold ? { fold } : {}),
    panels: sent.panels,
    foldNotes: sent.fold?.notes ?? [],
    bulk: sent.fold?.bulk ?? [],
    worker_ms: sent.worker_ms,
  };
}

function textureOf(texture: Texture, buffers: readonly ArrayBuffer[]): StageTexture {
  const [heightPx = 0, widthPx = 0] = texture.pixels.shape;
  return { pixels: bytesOf(texture.pixels, buffers), widthPx, heightPx, inked: texture.inked };
}

/** Of an unprinted canvas, sRGB: a warm white. */
const BARE = [238, 234, 224, 255] as const;

/** The flat canvases with nothing on them, for a job whose picture is not at hand. */
export function bareCanvas({ flat }: Layout, panels: readonly PanelPlace[]): StageTexture {
  const [across, down] = flat.canvas_mm;
  const rows = panels[0] === undefined ? 1 : panels[0].bottom_px - panels[0].top_px;
  const widthPx = Math.max(1, Math.round((rows * across) / down));
  const heightPx = panels.at(-1)?.bottom_px ?? rows;
  const pixels = new Uint8Array(widthPx * heightPx * 4);
  for (let at = 0; at < pixels.length; at += 4) pixels.set(BARE, at);
  return { pixels, widthPx, heightPx };
}

function foldOf(fold: FoldReply, buffers: readonly ArrayBuffer[]): StageFold {
  return {
    at: fold.at,
    positions: floatsOf(fold.positions, buffers),
    uv: floatsOf(fold.uv, buffers),
    triangles: indicesOf(fold.triangles, buffers),
    outlines: indicesOf(fold.outlines, buffers),
    creaseCount: fold.crease_count,
    steps: fold.stages,
  };
}

/** An opened picture with its small copy. */
export function openedPicture(id: number, reply: OpenReply, buffers: readonly ArrayBuffer[]): OpenPicture {
  return { id, info: reply.info, thumbnail: imageOf(reply.thumbnail, buffers) };
}

/** The measures of each panel's piece. */
function sizesOf({ face, bars, wrap }: Job, weighsG?: number): StageSizes {
  return {
    faceWidthMm: face.width_mm,
    faceHeightMm: face.height_mm,
    depthMm: bars.depth_mm,
    turnoverMm: wrap.turnover_mm,
    ...(bars.width_mm === undefined ? {} : { barWidthMm: bars.width_mm }),
    ...(weighsG === undefined ? {} : { weighsG }),
    corners: { finish: wrap.finish, over: wrap.over },
  };
}

/** One piece for each panel; `alike` holds the parts that all share, `weighsG` the most that one may weigh. */
export function piecesOf(
  job: Job,
  panels: readonly PanelPlace[],
  alike: Pick<StagePiece, "fold" | "texture" | "inked">,
  weighsG?: number,
): readonly StagePiece[] {
  const sizes = sizesOf(job, weighsG);
  return panels.map(({ centre_mm, top_px, bottom_px }) => ({
    ...alike,
    sizes,
    rows: { topPx: top_px, bottomPx: bottom_px },
    centreMm: centre_mm,
  }));
}

/** One pane for each variant. */
export function panesOf(reply: CompareReply, buffers: readonly ArrayBuffer[]): readonly StagePane[] {
  const textures = reply.textures.map((texture) => textureOf(texture, buffers));
  const folds = reply.folds.map((fold) => foldOf(fold, buffers));
  const looks = reply.looks.map((look) => lookOf(look, buffers));
  return reply.variants.map((variant) => {
    const [texture, fold, look] = [textures[variant.texture], folds[variant.fold], looks[variant.look]];
    if (texture === undefined || fold === undefined) throw new Error(`no texture or fold for ${variant.label}`);
    return {
      pieces: piecesOf(
        variant.job,
        variant.panels,
        { fold, texture, inked: variant.inked },
        variant.whole_g[1] / variant.panels.length,
      ),
      ...(look === undefined ? {} : { look }),
    };
  });
}

/** The tables as the stage takes them; no copy is made. */
export function lookOf(reply: LookReply, buffers: readonly ArrayBuffer[]): Look {
  return {
    nodes: reply.nodes,
    curve: floatsOf(reply.curve, buffers),
    printed: halvesOf(reply.printed, buffers),
    ...(reply.filed ? { filed: halvesOf(reply.filed, buffers) } : {}),
    clipFullDe: reply.clip_full_de,
    scale: bytesOf(reply.scale, buffers),
    scaleFullDe: reply.scale_full_de,
  };
}
