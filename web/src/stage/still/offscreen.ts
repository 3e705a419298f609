/** Pictures that are not the page's own: stills of any size, drawn in tiles, and the frames of a turntable. */

import { type PerspectiveCamera, Vector3 } from "three";
import { drawScale } from "./draw_scale";
import type { Point } from "../camera/orbit";
import { type PaneBox, paneBoxes } from "../panes/panes";
import type { StageRenderer } from "../drawing/renderer";
import type { StageCamera } from "../camera/stage_camera";
import type { StageScene } from "../stage_scene";
import { checkStillSize, fromTheTop, LARGEST_STILL_PX, paper, pngOf, tiles } from "./still";
import type { PicturePoint } from "./still_scale";
import type { StillOptions } from "../types";

/** A tile is no larger than this, so that it needs little of the graphics processor's memory. */
const TILE_PX = 2048;
/** The line between panes, for a thousand pixels of height. */
const GAP_SHARE = 0.003;

export interface Drawn {
  readonly renderer: StageRenderer;
  readonly scene: StageScene;
  readonly sight: StageCamera;
  /** Height of the page's own panes, CSS pixels: lines in a larger still are as much thicker. */
  readonly paneHeightPx: number;
}

/** A PNG of all panes. */
export async function drawStill(
  { renderer, scene, sight, paneHeightPx }: Drawn,
  widthPx: number,
  heightPx: number,
  { view, scale }: StillOptions,
): Promise<Blob> {
  checkStillSize(widthPx, heightPx, LARGEST_STILL_PX);
  const context = paper(widthPx, heightPx);
  context.fillStyle = "#6b635a";
  context.fillRect(0, 0, widthPx, heightPx);
  const mostPx = Math.min(TILE_PX, renderer.largestPx);
  const boxes = paneBoxes(scene.count, widthPx, heightPx, Math.round(Math.min(widthPx, heightPx) * GAP_SHARE));
  for (const [pane, box] of boxes.entries()) {
    const { left, width, height } = box;
    const top = heightPx - box.bottom - height;
    const aim = (): number => (view === undefined ? sight.aim(width / height) : sight.aimView(view, width / height));
    for (const tile of tiles(width, height, mostPx)) {
      // Between two tiles the page may have drawn: everything is set again for each.
      scene.refresh(renderer);
      scene.showRoom(aim());
      // Of the whole pane this tile is a part: the pane's own corner lies left of it and below.
      const bottom = height - tile.top - tile.height;
      scene.ready(pane, { left: -tile.left, bottom: -bottom, width, height }, tile);
      scene.shared.pixelRatio.value = Math.max(1, height / paneHeightPx);
      const { camera } = sight;
      camera.setViewOffset(width, height, tile.left, tile.top, tile.width, tile.height);
      const reading = renderer.read(scene.scene, camera, tile.width, tile.height);
      camera.clearViewOffset();
      const pixels = fromTheTop(await reading, tile.width, tile.height);
      context.putImageData(new ImageData(pixels, tile.width, tile.height), left + tile.left, top + tile.top);
    }
    if (scale === undefined) continue;
    aim();
    const face = scene.facePlane(pane);
    const oblique = sight.oblique;
    const project = projection(sight.camera, box);
    if (face !== undefined) {
      drawScale(context, { left, top, widthPx: width, heightPx: height }, { project, face, oblique }, scale);
    }
  }
  return pngOf(context);
}

/** Where the camera shows a point of the room, in pixels from the pane's top left corner. */
function projection(camera: PerspectiveCamera, { width, height }: PaneBox): (point: Point) => PicturePoint {
  const seen = new Vector3();
  // As it stands now: the page's own drawing moves it on.
  const still = camera.clone();
  still.updateMatrixWorld();
  return (point) => {
    seen.set(...point).project(still);
    return { x: ((seen.x + 1) / 2) * width, y: ((1 - seen.y) / 2) * height };
  };
}

/** The first pane's piece, turned, without the room: RGBA, rows from the top. */
export async function drawTurned(
  { renderer, scene, sight, paneHeightPx }: Drawn,
  widthPx: number,
  heightPx: number,
  turnRad: number,
): Promise<Uint8Array> {
  checkStillSize(widthPx, heightPx, Math.min(renderer.largestPx, LARGEST_STILL_PX));
  scene.refresh(renderer);
  sight.aimTurn(turnRad, widthPx / heightPx);
  // No wall to turn through: only its colour behind the piece.
  scene.showRoom(0);
  const box = { left: 0, bottom: 0, width: widthPx, height: heightPx };
  scene.ready(0, box, box);
  scene.shared.pixelRatio.value = Math.max(1, heightPx / paneHeightPx);
  const pixels = fromTheTop(await renderer.read(scene.scene, sight.camera, widthPx, heightPx), widthPx, heightPx);
  return new Uint8Array(pixels.buffer);
}
