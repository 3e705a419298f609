/** A pane's look on the graphics processor: tables, view, threshold, and the mask of the highlighted hue group. */

import { DataTexture, type IUniform, LinearFilter, LinearMipmapLinearFilter, RedFormat, type Texture } from "three";
import { hueGroupMask } from "./hue_mask";
import { LookTables } from "./tables_on_gpu";
import type { ColourView, Look, StageLabels } from "../types";

export interface LookUniforms {
  readonly lookMode: IUniform<number>;
  readonly lookTable: IUniform<Texture | null>;
  readonly lookNodes: IUniform<number>;
  readonly clipFullDe: IUniform<number>;
  readonly thresholdDe: IUniform<number>;
  readonly clipScale: IUniform<Texture | null>;
  readonly scaleSteps: IUniform<number>;
  readonly scaleFullDe: IUniform<number>;
  readonly hueMask: IUniform<Texture | null>;
  readonly lit: IUniform<boolean>;
}

function maskTexture(labels: StageLabels, group: number): DataTexture {
  const texture = new DataTexture(hueGroupMask(labels.labels, group), labels.widthPx, labels.heightPx, RedFormat);
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.needsUpdate = true;
  return texture;
}

export class LookOnGpu {
  readonly uniforms: LookUniforms = {
    lookMode: { value: 0 },
    lookTable: { value: null },
    lookNodes: { value: 2 },
    clipFullDe: { value: 1 },
    thresholdDe: { value: 0 },
    clipScale: { value: null },
    scaleSteps: { value: 1 },
    scaleFullDe: { value: 1 },
    hueMask: { value: null },
    lit: { value: false },
  };
  private view: ColourView = "filed";
  private look: Look | undefined;
  private labels: StageLabels | undefined;
  private group = 0;

  /** Looks that share their tables with others take them from the same store. */
  constructor(private readonly tables = new LookTables()) {}

  setLook(look: Look | undefined): void {
    if (look === this.look) return;
    this.look = look;
    if (look === undefined) {
      this.uniforms.clipScale.value = null;
      this.setView(this.view);
      return;
    }
    this.uniforms.clipScale.value = this.tables.of(look).scale;
    this.uniforms.lookNodes.value = look.nodes;
    this.uniforms.clipFullDe.value = look.clipFullDe;
    this.uniforms.scaleSteps.value = look.scale.length / 3;
    this.uniforms.scaleFullDe.value = look.scaleFullDe;
    this.setView(this.view);
  }

  setView(view: ColourView): void {
    this.view = view;
    const tables = this.look && this.tables.of(this.look);
    const table = view === "filed" ? tables?.filed : tables?.printed;
    this.uniforms.lookTable.value = table ?? null;
    this.uniforms.lookMode.value = table === undefined ? 0 : view === "clip" ? 2 : 1;
  }

  setThreshold(de: number): void {
    this.uniforms.thresholdDe.value = de;
  }

  setLabels(labels: StageLabels): void {
    this.labels = labels;
    this.highlight(this.group);
  }

  highlight(group: number): void {
    this.group = group;
    this.uniforms.hueMask.value?.dispose();
    const mask = group === 0 || this.labels === undefined ? null : maskTexture(this.labels, group);
    this.uniforms.hueMask.value = mask;
    this.uniforms.lit.value = mask !== null;
  }

  /** Free the mask; the next frame uploads it again if it is in use. The store owns the tables. */
  dispose(): void {
    this.uniforms.hueMask.value?.dispose();
  }
}
