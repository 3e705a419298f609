/** The stage: a gallery wall at true scale with folded canvases on it, in one pane or several. */

import type { Place, Surroundings } from "../contract/types";
import { listen } from "./camera/controls";
import { Snapshot } from "./snapshot";
import { FrameLoop } from "./drawing/loop";
import { drawnRatio } from "./drawing/ratio";
import { type Drawn, drawStill, drawTurned } from "./still/offscreen";
import { type PaneBox, paneBoxes } from "./panes/panes";
import { StageRenderer } from "./drawing/renderer";
import { StageCamera } from "./camera/stage_camera";
import { EMPTY, StageScene } from "./stage_scene";
import {
  type ColourView,
  type Counters,
  type Look,
  type Stage,
  type StageOptions,
  type StagePane,
  StageUnavailable,
  type StillOptions,
  type Theme,
  type View,
} from "./types";
import { mark, say } from "../speech/say";

export * from "./types";

/** The line between panes, CSS pixels. */
const GAP_PX = 2;
/** A lost graphics processor that has not come back by then is not waited for. */
const GIVE_UP_MS = 5000;
const LABEL = mark(
  "The canvas on the wall. Arrow keys turn the view, Shift and arrow keys move it, plus and minus zoom, Home faces the front.",
);

/** Put the stage into `host`; throws `StageUnavailable` where there is no WebGL 2. */
export function createStage(host: HTMLElement, options: StageOptions): Stage {
  return new WallStage(host, options);
}

class WallStage implements Stage {
  private readonly renderer: StageRenderer;
  private readonly scene: StageScene;
  private readonly sight: StageCamera;
  private readonly snapshot: Snapshot;
  private readonly loop = new FrameLoop((dtS) => this.draw(dtS));
  private readonly watcher: ResizeObserver;
  private readonly unlisten: () => void;
  private boxes: readonly PaneBox[] = [];
  private at = 1;
  private ratio = 1;
  private footPx = 0;
  /** Pictures that are not the page's own are drawn one after the other; meanwhile the page's own waits. */
  private drawing: Promise<unknown> = Promise.resolve();
  private offscreen = 0;
  private givingUp = 0;

  constructor(
    private readonly host: HTMLElement,
    private readonly options: StageOptions,
  ) {
    this.renderer = new StageRenderer({ lost: () => this.lost(), restored: () => this.restored() });
    this.scene = new StageScene(this.renderer.anisotropy);
    this.sight = new StageCamera(EMPTY, {
      reducedMotion: options.reducedMotion,
      onView: (view) => options.onView?.(view),
    });
    const { element } = this.renderer;
    this.snapshot = new Snapshot(element);
    element.tabIndex = 0;
    element.setAttribute("role", "application");
    element.setAttribute("aria-label", say(LABEL));
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
    const { count, bytes } = this.scene.textures;
    return { ...this.renderer.counters, textures: count, textureBytes: bytes };
  }

  setPanes(panes: readonly StagePane[]): void {
    const first = !this.scene.hangs;
    const count = this.scene.count;
    this.scene.setPanes(panes);
    if (this.scene.count !== count) this.layOut();
    this.sight.setHanging(this.scene.hanging, first);
    this.loop.touch();
  }

  setLook(look: Look): void {
    this.scene.setLook(look);
    this.loop.touch();
  }

  setColourView(view: ColourView): void {
    this.scene.setColourView(view);
    this.loop.touch();
  }

  setThreshold(de: number): void {
    this.scene.setThreshold(de);
    this.loop.touch();
  }

  setLabels(labels: Uint8Array, widthPx: number, heightPx: number): void {
    this.scene.setLabels({ labels, widthPx, heightPx });
    this.loop.touch();
  }

  highlight(group: number): void {
    this.scene.highlight(group);
    this.loop.touch();
  }

  setAt(at: number): void {
    this.at = at;
    if (this.offscreen > 0 || !this.scene.setAt(at)) return;
    this.sight.setHanging(this.scene.hanging, false);
    this.loop.touch();
  }

  setView(view: View): void {
    this.sight.setView(view);
    this.loop.touch();
  }

  setTheme(theme: Theme): void {
    this.scene.setTheme(theme);
    this.loop.touch();
  }

  setSurroundings(surroundings: Surroundings): void {
    this.scene.setSurroundings(surroundings);
    this.sight.setHanging(this.scene.hanging, false);
    this.loop.touch();
  }

  focusPlace(place: Place): void {
    this.sight.focusPlace(place);
    this.loop.touch();
  }

  setFoot(footPx: number): void {
    if (footPx === this.footPx) return;
    this.footPx = footPx;
    this.layOut();
    this.loop.touch();
  }

  mmPerPixel(): number {
    return this.sight.mmPerPixel();
  }

  still(widthPx: number, heightPx: number, options: StillOptions = {}): Promise<Blob> {
    return this.aside(() => {
      this.scene.setAt(options.at ?? this.at);
      this.sight.setHanging(this.scene.hanging, false);
      return drawStill(this.drawn, widthPx, heightPx, options);
    });
  }

  frame(widthPx: number, heightPx: number, turnRad: number): Promise<Uint8Array> {
    return this.aside(() => drawTurned(this.drawn, widthPx, heightPx, turnRad));
  }

  resize(): void {
    this.ratio = drawnRatio();
    this.renderer.setSize(Math.max(1, this.host.clientWidth), Math.max(1, this.host.clientHeight), this.ratio);
    this.layOut();
    this.loop.touch();
  }

  dispose(): void {
    clearTimeout(this.givingUp);
    this.watcher.disconnect();
    this.unlisten();
    this.loop.dispose();
    this.snapshot.dispose();
    this.scene.release();
    this.renderer.release();
    this.renderer.dispose();
  }

  private get drawn(): Drawn {
    const paneHeightPx = (this.boxes[0]?.height ?? 1) / this.ratio;
    return { renderer: this.renderer, scene: this.scene, sight: this.sight, paneHeightPx };
  }

  /** Where the panes lie on the page's own picture. */
  private layOut(): void {
    const { width, height } = this.renderer.element;
    this.boxes = paneBoxes(this.scene.count, width, height, Math.round(GAP_PX * this.ratio));
    const [box] = this.boxes;
    if (box !== undefined) this.sight.setSize(box.width / this.ratio, box.height / this.ratio, this.footPx);
  }

  /** Draw something that is not the page's own picture, when everything before it has been drawn. */
  private aside<T>(work: () => Promise<T>): Promise<T> {
    const next = this.drawing.then(async () => {
      if (this.renderer.lost) throw new StageUnavailable("the 3D view has stopped");
      this.offscreen += 1;
      try {
        return await work();
      } finally {
        this.offscreen -= 1;
        this.scene.setAt(this.at);
        this.sight.setHanging(this.scene.hanging, false);
        this.loop.touch();
      }
    });
    // Whether it succeeds is for the one who asked; the next is drawn either way.
    this.drawing = next.then(
      () => undefined,
      () => undefined,
    );
    return next;
  }

  private draw(dtS: number): boolean {
    // An empty room is seen by nobody; drawing it would keep others waiting while the page starts.
    if (this.renderer.lost || this.offscreen > 0 || !this.scene.hangs) return false;
    const moving = this.sight.step(dtS);
    const { scene, sight, boxes } = this;
    scene.refresh(this.renderer);
    scene.showRoom(sight.aimPage());
    scene.shared.pixelRatio.value = this.ratio;
    this.renderer.drawPanes(scene.scene, sight.camera, boxes, (pane) => {
      const box = boxes[pane];
      if (box !== undefined) scene.ready(pane, box, box);
    });
    this.snapshot.touch();
    return moving;
  }

  private lost(): void {
    // What belonged to the lost context must not be deleted in the one that follows it.
    this.scene.release();
    this.renderer.release();
    this.snapshot.show();
    clearTimeout(this.givingUp);
    this.givingUp = window.setTimeout(() => this.options.onGivenUp?.(), GIVE_UP_MS);
    this.options.onLost?.();
  }

  private restored(): void {
    clearTimeout(this.givingUp);
    this.snapshot.hide();
    this.options.onRestored?.();
    this.loop.touch();
  }
}
