/** The tables of looks on the graphics processor; a look that several panes have is kept once. */

import {
  ClampToEdgeWrapping,
  Data3DTexture,
  DataTexture,
  HalfFloatType,
  LinearFilter,
  NearestFilter,
  RGBAFormat,
} from "three";
import type { Look } from "../types";

/** One look as textures. */
export interface Tables {
  readonly printed: Data3DTexture;
  readonly filed?: Data3DTexture;
  readonly scale: DataTexture;
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

export class LookTables {
  private readonly kept = new Map<Look, Tables>();

  /** A look's tables; made when first asked for. */
  of(look: Look): Tables {
    const known = this.kept.get(look);
    if (known !== undefined) return known;
    const tables: Tables = {
      printed: tableTexture(look.printed, look.nodes),
      ...(look.filed === undefined ? {} : { filed: tableTexture(look.filed, look.nodes) }),
      scale: scaleTexture(look.scale),
    };
    this.kept.set(look, tables);
    return tables;
  }

  /** Drop every look but these. */
  keep(looks: ReadonlySet<Look>): void {
    for (const [look, tables] of this.kept) {
      if (looks.has(look)) continue;
      drop(tables);
      this.kept.delete(look);
    }
  }

  /** Free the memory on the graphics processor; the next drawing uploads what it needs. */
  dispose(): void {
    for (const tables of this.kept.values()) drop(tables);
  }
}

function drop({ printed, filed, scale }: Tables): void {
  for (const texture of [printed, filed, scale]) texture?.dispose();
}
