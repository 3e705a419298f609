/** A square picture that repeats without a seam, on the graphics processor. */

import type { PixelFormat } from "three";
import { DataTexture, LinearFilter, LinearMipmapLinearFilter, RepeatWrapping } from "three";

export function tileTexture(pixels: Uint8Array<ArrayBuffer>, sizePx: number, format: PixelFormat): DataTexture {
  const texture = new DataTexture(pixels, sizePx, sizePx, format);
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.needsUpdate = true;
  return texture;
}
