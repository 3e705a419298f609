/** The only file that touches the graphics processor: one canvas element, one WebGL 2 context. */

import type { PerspectiveCamera, Scene, Texture } from "three";
import { Camera, WebGLRenderer, WebGLRenderTarget } from "three";
import type { ShadowScene } from "./shadow_scene";
import type { Counters } from "./types";
import { StageUnavailable } from "./types";

const SHADOW_PX = 384;
const SAMPLES = 4;

export interface RendererEvents {
  lost(): void;
  restored(): void;
}

export class StageRenderer {
  readonly element: HTMLCanvasElement;
  readonly anisotropy: number;
  private readonly gpu: WebGLRenderer;
  private readonly tracedTarget: WebGLRenderTarget;
  private readonly shadowTarget: WebGLRenderTarget;
  /** Shadow vertices arrive in clip space; three wants a camera all the same. */
  private readonly noCamera = new Camera();
  private readonly ending = new AbortController();
  private figures: Counters = { frames: 0, drawCalls: 0, triangles: 0 };
  private gone = false;

  constructor(events: RendererEvents) {
    this.element = document.createElement("canvas");
    const context = this.element.getContext("webgl2", { antialias: true, alpha: false, stencil: false });
    if (context === null) throw new StageUnavailable("WebGL 2 is not available in this browser");
    this.gpu = new WebGLRenderer({ canvas: this.element, context });
    this.gpu.autoClear = false;
    // One frame may take several passes; they are counted together.
    this.gpu.info.autoReset = false;
    this.anisotropy = Math.min(4, this.gpu.capabilities.getMaxAnisotropy());
    this.tracedTarget = new WebGLRenderTarget(SHADOW_PX, SHADOW_PX);
    this.shadowTarget = new WebGLRenderTarget(SHADOW_PX, SHADOW_PX, { depthBuffer: false });
    const options = { signal: this.ending.signal };
    this.element.addEventListener("webglcontextlost", () => {
      this.gone = true;
      events.lost();
    }, options);
    this.element.addEventListener("webglcontextrestored", () => {
      this.gone = false;
      events.restored();
    }, options);
  }

  get lost(): boolean {
    return this.gone;
  }

  get counters(): Counters {
    return this.figures;
  }

  get shadow(): Texture {
    return this.shadowTarget.texture;
  }

  /** Size in CSS pixels, and how many device pixels each has. */
  setSize(widthPx: number, heightPx: number, ratio: number): void {
    this.gpu.setPixelRatio(ratio);
    this.gpu.setSize(widthPx, heightPx, false);
  }

  /** Trace the shadow anew, and smooth it. */
  drawShadow(shadow: ShadowScene): void {
    if (this.gone) return;
    this.gpu.setClearColor(0x000000, 1);
    this.gpu.setRenderTarget(this.tracedTarget);
    this.gpu.clear();
    this.gpu.render(shadow.scene, this.noCamera);
    shadow.traced.value = this.tracedTarget.texture;
    shadow.texel.value = 1 / SHADOW_PX;
    this.gpu.setRenderTarget(this.shadowTarget);
    this.gpu.render(shadow.blur, this.noCamera);
    this.gpu.setRenderTarget(null);
  }

  draw(scene: Scene, camera: PerspectiveCamera): void {
    if (this.gone) return;
    this.gpu.info.reset();
    this.gpu.clear(false, true, false);
    this.gpu.render(scene, camera);
    const { calls, triangles } = this.gpu.info.render;
    this.figures = { frames: this.figures.frames + 1, drawCalls: calls, triangles };
  }

  /** The largest still, along either side. */
  get largestPx(): number {
    return this.gpu.capabilities.maxTextureSize;
  }

  /** Draw into a picture of its own: RGBA, rows counted from the bottom. */
  async read(scene: Scene, camera: PerspectiveCamera, widthPx: number, heightPx: number): Promise<Uint8Array> {
    if (this.gone) throw new StageUnavailable("the graphics processor has dropped the stage");
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

  /** Let go of the pictures that are drawn into; they are made again when needed. */
  release(): void {
    this.tracedTarget.dispose();
    this.shadowTarget.dispose();
  }

  dispose(): void {
    this.ending.abort();
    this.release();
    this.gpu.dispose();
    this.gpu.forceContextLoss();
    this.element.remove();
  }
}
