/** The only file that touches the graphics processor: one canvas element, one WebGL 2 context. */

import { Camera, type PerspectiveCamera, type Scene, WebGLRenderer, WebGLRenderTarget } from "three";
import type { PaneBox } from "../panes/panes";
import type { ShadowScene } from "../room/shadow_scene";
import { type Counters, StageUnavailable } from "../types";
import { anisotropyFor } from "./anisotropy";

const SAMPLES = 4;
/** Between panes; the page's ink, quiet on a pale and on a dark wall. */
const BETWEEN_PANES = 0x6b635a;

/** The latest picture can still be read after it has been shown: a copy is kept for when the context is lost. */
const CONTEXT: WebGLContextAttributes = {
  antialias: true,
  alpha: false,
  stencil: false,
  preserveDrawingBuffer: true,
};

export type DrawFigures = Pick<Counters, "frames" | "drawCalls" | "triangles">;

export interface RendererEvents {
  lost(): void;
  restored(): void;
}

export class StageRenderer {
  readonly element: HTMLCanvasElement;
  readonly anisotropy: number;
  private readonly gpu: WebGLRenderer;
  private readonly tracedTarget: WebGLRenderTarget;
  /** Shadow vertices arrive in clip space; three wants a camera all the same. */
  private readonly noCamera = new Camera();
  private readonly ending = new AbortController();
  private figures: DrawFigures = { frames: 0, drawCalls: 0, triangles: 0 };
  private gone = false;

  constructor(events: RendererEvents) {
    this.element = document.createElement("canvas");
    const context = this.element.getContext("webgl2", CONTEXT);
    if (context === null) throw new StageUnavailable("WebGL 2 is not available in this browser");
    this.gpu = new WebGLRenderer({ canvas: this.element, context });
    this.gpu.autoClear = false;
    // One frame may take several passes; they are counted together.
    this.gpu.info.autoReset = false;
    this.anisotropy = anisotropyFor(context);
    this.tracedTarget = new WebGLRenderTarget(1, 1);
    const options = { signal: this.ending.signal };
    this.element.addEventListener(
      "webglcontextlost",
      () => {
        this.gone = true;
        events.lost();
      },
      options,
    );
    this.element.addEventListener(
      "webglcontextrestored",
      () => {
        this.gone = false;
        events.restored();
      },
      options,
    );
  }

  get lost(): boolean {
    return this.gone;
  }

  get counters(): DrawFigures {
    return this.figures;
  }

  /** Size in CSS pixels, and how many device pixels each has. */
  setSize(widthPx: number, heightPx: number, ratio: number): void {
    this.gpu.setPixelRatio(ratio);
    this.gpu.setSize(widthPx, heightPx, false);
  }

  /** Trace a shadow again, and smooth it. */
  drawShadow(shadow: ShadowScene): void {
    if (this.gone) return;
    const { width, height } = shadow.target;
    this.tracedTarget.setSize(width, height);
    this.gpu.setClearColor(0x000000, 1);
    this.gpu.setRenderTarget(this.tracedTarget);
    this.gpu.clear();
    this.gpu.render(shadow.scene, this.noCamera);
    shadow.traced.value = this.tracedTarget.texture;
    shadow.texel.value = 1 / width;
    this.gpu.setRenderTarget(shadow.target);
    this.gpu.render(shadow.blur, this.noCamera);
    this.gpu.setRenderTarget(null);
  }

  /** Draw one picture over all of the page's. */
  draw(scene: Scene, camera: PerspectiveCamera): void {
    const { width, height } = this.element;
    this.drawPanes(scene, camera, [{ left: 0, bottom: 0, width, height }], () => {});
  }

  /** Draw every pane into its box of the page's picture (device pixels); `ready` is called before each. */
  drawPanes(scene: Scene, camera: PerspectiveCamera, boxes: readonly PaneBox[], ready: (pane: number) => void): void {
    if (this.gone) return;
    this.gpu.info.reset();
    this.gpu.setScissorTest(false);
    if (boxes.length > 1) this.gpu.setClearColor(BETWEEN_PANES, 1);
    this.gpu.clear(boxes.length > 1, true, false);
    // three counts viewports in CSS pixels.
    const ratio = this.gpu.getPixelRatio();
    this.gpu.setScissorTest(boxes.length > 1);
    boxes.forEach(({ left, bottom, width, height }, pane) => {
      ready(pane);
      const box = [left / ratio, bottom / ratio, width / ratio, height / ratio] as const;
      this.gpu.setViewport(...box);
      this.gpu.setScissor(...box);
      this.gpu.render(scene, camera);
    });
    this.gpu.setScissorTest(false);
    const { calls, triangles } = this.gpu.info.render;
    this.figures = { frames: this.figures.frames + 1, drawCalls: calls, triangles };
  }

  /** The largest picture that is drawn at once, along either side. */
  get largestPx(): number {
    return this.gpu.capabilities.maxTextureSize;
  }

  /** Draw into a picture of its own: RGBA, rows counted from the bottom. */
  async read(scene: Scene, camera: PerspectiveCamera, widthPx: number, heightPx: number): Promise<Uint8Array> {
    if (this.gone) throw new StageUnavailable("the 3D view has stopped");
    const target = new WebGLRenderTarget(widthPx, heightPx, { samples: SAMPLES });
    try {
      this.gpu.setRenderTarget(target);
      this.gpu.clear(true, true, false);
      this.gpu.render(scene, camera);
      this.gpu.setRenderTarget(null);
      const pixels = new Uint8Array(widthPx * heightPx * 4);
      await this.gpu.readRenderTargetPixelsAsync(target, 0, 0, widthPx, heightPx, pixels);
      return pixels;
    } finally {
      target.dispose();
    }
  }

  /** Free the render targets; they are made again when needed. */
  release(): void {
    this.tracedTarget.dispose();
  }

  dispose(): void {
    this.ending.abort();
    this.release();
    this.gpu.dispose();
    this.gpu.forceContextLoss();
    this.element.remove();
  }
}
