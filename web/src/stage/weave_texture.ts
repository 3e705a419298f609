/** The weave on the graphics processor: one texture for every canvas on the stage. */

import { DataTexture, LinearFilter, LinearMipmapLinearFilter, RepeatWrapping, RGBAFormat } from "three";
import { weaveTile } from "./weave";

const TILE_PX = 256;

export function weaveTexture(): DataTexture {
  const texture = new DataTexture(weaveTile(TILE_PX), TILE_PX, TILE_PX, RGBAFormat);
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.needsUpdate = true;
  return texture;
}
