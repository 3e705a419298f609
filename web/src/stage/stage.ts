/** The stage: a gallery wall at true scale with the folded canvas on it. */

import { Scene } from "three";
import type { Place } from "../contract/types";
import { listen } from "./controls";
import { roomLight, shadowRays } from "./light";
import { checkLabels, checkLook } from "./look_table";
import { FrameLoop } from "./loop";
import { pieceScene } from "./piece_scene";
import { PieceShape } from "./piece_shape";
import { StageRenderer } from "./renderer";
import { roomScene } from "./room_scene";
import { shadowScene } from "./shadow_scene";
import { StageCamera } from "./stage_camera";
import { checkStillSize, fromTheTop, pngOf } from "./still";
import type {
  ColourView,
  Counters,
  Look,
  Stage,
  StageFold,
  StageOptions,
  StageSizes,
  StageTexture,
  Theme,
  View,
} from "./types";
import { paintRoom, placeShadow, sharedUniforms } from "./uniforms";
import type { Hanging } from "./views";

export * from "./types";

/** More device pixels than two for each CSS pixel cost time and show nothing. */
const LARGEST_RATIO = 2;
const KEY_RAYS = 85;
const SKY_RAYS = 51;
/** The wall is let out while the camera passes through its plane. */
const WALL_FADE_M = 0.16;
/** Before the first fold arrives nothing hangs on the wall; the camera waits for a piece of about this size. */
const EMPTY: Hanging = { centre: [0, 1.5, 0.038], widthM: 0.4, heightM: 0.3, depthM: 0.038, spreadM: 0.063 };
const LABEL =
  "The canvas on the wall. Arrow keys turn the view, Shift and arrow keys move it, " +
  "plus and minus zoom, Home faces the front.";

/** Put the stage into `host`; throws `StageUnavailable` where there is no WebGL 2. */
export function createStage(host: HTMLElement, options: StageOptions): Stage {
  return new WallStage(host, options);
}

class WallStage implements Stage {
  private readonly renderer: StageRenderer;
  private readonly shared = sharedUniforms();
  private readonly room = roomScene(this.shared);
  private readonly piece = pieceScene(this.shared);
  private readonly shadow = shadowScene(shadowRays(roomLight(), KEY_RAYS, SKY_RAYS));
  private readonly scene = new Scene();
  private readonly sight: StageCamera;
  private readonly loop = new FrameLoop((dtS) => this.frame(dtS));
  private readonly watcher: ResizeObserver;
  private readonly unlisten: () => void;
  private shape: PieceShape | undefined;
  private at = 1;
  private heightPx = 1;
  private stale = { shape: false, shadow: true };

  constructor(private readonly host: HTMLElement, private readonly options: StageOptions) {
    this.renderer = new StageRenderer({ lost: () => this.lost(), restored: () => this.restored() });
    this.sight = new StageCamera(EMPTY, {
      reducedMotion: options.reducedMotion,
      onView: (view) => options.onView?.(view),
    });
    this.scene.add(this.room.group, this.piece.group);
    this.scene.matrixWorldAutoUpdate = false;
    this.room.group.updateMatrixWorld(true);
    this.shadow.caster.matrixAutoUpdate = false;
    this.shared.shadow.value = this.renderer.shadow;
    paintRoom(this.shared, "light");

    const { element } = this.renderer;
    element.tabIndex = 0;
    element.setAttribute("role", "application");
    element.setAttribute("aria-label", LABEL);
    element.style.cssText = "display:block;width:100%;height:100%;touch-action:none";
    host.append(element);
    this.unlisten = listen(element, {
      wish: (wish) => {
        this.sight.follow(wish);
        this.loop.touch();
      },
      home: () => this.setView("front"),
    });
    this.watcher = new ResizeObserver(() => this.resize());
    this.watcher.observe(host);
    this.resize();
  }

  get counters(): Counters {
    return this.renderer.counters;
  }

  setFold(fold: StageFold, sizes: StageSizes): void {
    const shape = new PieceShape(fold, sizes);
    this.sight.setHanging(shape.hanging, this.shape === undefined);
    this.shape = shape;
    this.piece.setShape(shape);
    this.shadow.setCasters(shape.corners.length / 3, shape.bars.positions);
    placeShadow(this.shared, this.shadow, shape.hanging);
    this.stale.shape = true;
    this.loop.touch();
  }

  setTexture(texture: StageTexture): void {
    const { pixels, widthPx, heightPx } = texture;
    if (pixels.length !== widthPx * heightPx * 4) {
      throw new RangeError(`texture: expected ${widthPx * heightPx * 4} bytes, got ${pixels.length}`);
    }
    this.piece.setTexture(texture, this.renderer.anisotropy);
    this.loop.touch();
  }

  setLook(look: Look): void {
    checkLook(look);
    this.piece.look.setLook(look);
    this.loop.touch();
  }

  setColourView(view: ColourView): void {
    this.piece.look.setView(view);
    this.loop.touch();
  }

  setThreshold(de: number): void {
    this.piece.look.setThreshold(de);
    this.loop.touch();
  }

  setLabels(labels: Uint8Array, widthPx: number, heightPx: number): void {
    const given = { labels, widthPx, heightPx };
    checkLabels(given);
    this.piece.look.setLabels(given);
    this.loop.touch();
  }

  highlight(group: number): void {
    this.piece.look.highlight(group);
    this.loop.touch();
  }

  setAt(at: number): void {
    if (at === this.at) return;
    this.at = at;
    this.stale.shape = true;
    this.loop.touch();
  }

  setView(view: View): void {
    this.sight.setView(view);
    this.loop.touch();
  }

  setTheme(theme: Theme): void {
    paintRoom(this.shared, theme);
    this.loop.touch();
  }

  focusPlace(place: Place): void {
    this.sight.focusPlace(place);
    this.loop.touch();
  }

  mmPerPixel(): number {
    return this.sight.mmPerPixel();
  }

  async still(widthPx: number, heightPx: number): Promise<Blob> {
    checkStillSize(widthPx, heightPx, this.renderer.largestPx);
    this.refresh();
    this.aim(widthPx / heightPx);
    this.shared.viewport.value.set(widthPx, heightPx);
    this.piece.setPixelRatio(Math.max(1, heightPx / this.heightPx));
    const reading = this.renderer.read(this.scene, this.sight.camera, widthPx, heightPx);
    this.fitPixels();
    return pngOf(fromTheTop(await reading, widthPx, heightPx), widthPx, heightPx);
  }

  resize(): void {
    const widthPx = Math.max(1, this.host.clientWidth);
    this.heightPx = Math.max(1, this.host.clientHeight);
    this.renderer.setSize(widthPx, this.heightPx, Math.min(LARGEST_RATIO, window.devicePixelRatio));
    this.sight.setSize(widthPx, this.heightPx);
    this.fitPixels();
    this.loop.touch();
  }

  dispose(): void {
    this.watcher.disconnect();
    this.unlisten();
    this.loop.dispose();
    this.release();
    this.renderer.dispose();
  }

  /** What is measured in pixels follows the page's own picture. */
  private fitPixels(): void {
    const { width, height } = this.renderer.element;
    this.shared.viewport.value.set(width, height);
    this.piece.setPixelRatio(height / this.heightPx);
  }

  /** Everything that depends on the fold, when it has changed. */
  private refresh(): void {
    if (this.stale.shape && this.shape !== undefined) {
      this.shape.moveTo(this.at);
      this.piece.move(this.shape);
      this.shadow.move(this.shape.corners);
      this.shadow.caster.matrix.copy(this.piece.group.matrixWorld);
      this.stale = { shape: false, shadow: true };
    }
    if (this.stale.shadow) {
      this.renderer.drawShadow(this.shadow);
      this.stale.shadow = false;
    }
  }

  private aim(aspect: number): void {
    const shown = Math.min(1, Math.max(0, this.sight.aim(aspect) / WALL_FADE_M));
    this.shared.wallShown.value = shown;
    this.room.setShown(shown > 0);
  }

  private frame(dtS: number): boolean {
    if (this.renderer.lost) return false;
    const moving = this.sight.step(dtS);
    this.refresh();
    this.aim(this.sight.aspect);
    this.renderer.draw(this.scene, this.sight.camera);
    return moving;
  }

  /** Let go of all that lies on the graphics processor; what is drawn again goes up again. */
  private release(): void {
    this.room.dispose();
    this.piece.dispose();
    this.shadow.dispose();
    this.renderer.release();
  }

  private lost(): void {
    // What belonged to the lost context must not be deleted in the one that follows it.
    this.release();
    this.options.onLost?.();
  }

  private restored(): void {
    this.stale = { shape: this.shape !== undefined, shadow: true };
    this.options.onRestored?.();
    this.loop.touch();
  }
}
