/** A look on the graphics processor: its tables as 3D textures, the scale, and the mask of the group lit up. */

import type { IUniform, Texture } from "three";
import {
  ClampToEdgeWrapping,
  Data3DTexture,
  DataTexture,
  HalfFloatType,
  LinearFilter,
  LinearMipmapLinearFilter,
  NearestFilter,
  RedFormat,
  RGBAFormat,
  Vector4,
} from "three";
import { groupMask } from "./group_mask";
import type { ColourView, Look, StageLabels, StageTexture } from "./types";

export interface LookUniforms {
  readonly lookMode: IUniform<number>;
  readonly lookTable: IUniform<Texture | null>;
  readonly lookNodes: IUniform<number>;
  readonly clipFullDe: IUniform<number>;
  readonly thresholdDe: IUniform<number>;
  readonly clipScale: IUniform<Texture | null>;
  readonly scaleSteps: IUniform<number>;
  readonly scaleFullDe: IUniform<number>;
  readonly inked: IUniform<Vector4>;
  readonly groupMask: IUniform<Texture | null>;
  readonly lit: IUniform<boolean>;
}

function tableTexture(halves: Uint16Array, nodes: number): Data3DTexture {
  const texture = new Data3DTexture(new Uint16Array(halves), nodes, nodes, nodes);
  texture.format = RGBAFormat;
  texture.type = HalfFloatType;
  texture.minFilter = LinearFilter;
  texture.magFilter = LinearFilter;
  texture.wrapS = ClampToEdgeWrapping;
  texture.wrapT = ClampToEdgeWrapping;
  texture.wrapR = ClampToEdgeWrapping;
  texture.needsUpdate = true;
  return texture;
}

function scaleTexture(scale: Uint8Array): DataTexture {
  const steps = scale.length / 3;
  const pixels = new Uint8Array(steps * 4).fill(255);
  for (let step = 0; step < steps; step += 1) pixels.set(scale.subarray(step * 3, step * 3 + 3), step * 4);
  const texture = new DataTexture(pixels, steps, 1, RGBAFormat);
  texture.minFilter = NearestFilter;
  texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

function maskTexture(labels: StageLabels, group: number): DataTexture {
  const texture = new DataTexture(groupMask(labels.labels, group), labels.widthPx, labels.heightPx, RedFormat);
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
    inked: { value: new Vector4(0, 0, 1, 1) },
    groupMask: { value: null },
    lit: { value: false },
  };
  private view: ColourView = "filed";
  private printed: Data3DTexture | undefined;
  private filed: Data3DTexture | undefined;
  private labels: StageLabels | undefined;
  private group = 0;

  setLook(look: Look): void {
    for (const texture of [this.printed, this.filed, this.uniforms.clipScale.value]) texture?.dispose();
    this.printed = tableTexture(look.printed, look.nodes);
    this.filed = look.filed && tableTexture(look.filed, look.nodes);
    this.uniforms.clipScale.value = scaleTexture(look.scale);
    this.uniforms.lookNodes.value = look.nodes;
    this.uniforms.clipFullDe.value = look.clipFullDe;
    this.uniforms.scaleSteps.value = look.scale.length / 3;
    this.uniforms.scaleFullDe.value = look.scaleFullDe;
    this.setView(this.view);
  }

  setView(view: ColourView): void {
    this.view = view;
    const table = view === "filed" ? this.filed : this.printed;
    this.uniforms.lookTable.value = table ?? null;
    this.uniforms.lookMode.value = table === undefined ? 0 : view === "clip" ? 2 : 1;
  }

  setThreshold(de: number): void {
    this.uniforms.thresholdDe.value = de;
  }

  setInked({ widthPx, heightPx, inked }: StageTexture): void {
    const { left, top, right, bottom } = inked ?? { left: 0, top: 0, right: widthPx, bottom: heightPx };
    this.uniforms.inked.value.set(left / widthPx, top / heightPx, right / widthPx, bottom / heightPx);
  }

  setLabels(labels: StageLabels): void {
    this.labels = labels;
    this.highlight(this.group);
  }

  highlight(group: number): void {
    this.group = group;
    this.uniforms.groupMask.value?.dispose();
    const mask = group === 0 || this.labels === undefined ? null : maskTexture(this.labels, group);
    this.uniforms.groupMask.value = mask;
    this.uniforms.lit.value = mask !== null;
  }

  /** Let go of the textures; those still in use go up again with the next frame. */
  dispose(): void {
    const { clipScale, groupMask: mask } = this.uniforms;
    for (const texture of [this.printed, this.filed, clipScale.value, mask.value]) texture?.dispose();
  }
}
