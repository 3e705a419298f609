/** Textures: one for each picture, however many pieces show it, and tiles that repeat. */
import {
  DataTexture,
  LinearFilter,
  LinearMipmapLinearFilter,
  type PixelFormat,
  RepeatWrapping,
  RGBAFormat,
  SRGBColorSpace,
} from "three";
import type { StageTexture } from "../types";

/** The canvas's own colour, where nothing is printed yet. */
const BARE = [241, 236, 226, 255] as const;

function pictureTexture({ pixels, widthPx, heightPx }: StageTexture, anisotropy: number): DataTexture {
  const texture = new DataTexture(pixels, widthPx, heightPx, RGBAFormat);
  texture.colorSpace = SRGBColorSpace;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.anisotropy = anisotropy;
  texture.needsUpdate = true;
  return texture;
}

/** Refuse a texture whose pixels are not as many as its size says. */
export function checkTexture({ pixels, widthPx, heightPx }: StageTexture): void {
  if (pixels.length !== widthPx * heightPx * 4) {
    throw new RangeError(`texture: expected ${widthPx * heightPx * 4} bytes, got ${pixels.length}`);
  }
}

export class TextureStore {
  private readonly kept = new Map<StageTexture, DataTexture>();
  private readonly bare = pictureTexture({ pixels: new Uint8Array(BARE), widthPx: 1, heightPx: 1 }, 1);

  constructor(private readonly anisotropy: number) {}

  /** Keep exactly these. One that is dropped gives its place to a new one of the same size. */
  keep(wanted: ReadonlySet<StageTexture>): void {
    const free: DataTexture[] = [];
    for (const [picture, texture] of this.kept) {
      if (wanted.has(picture)) continue;
      free.push(texture);
      this.kept.delete(picture);
    }
    for (const picture of wanted) {
      if (!this.kept.has(picture)) this.kept.set(picture, this.place(picture, free));
    }
    for (const texture of free) texture.dispose();
  }

  /** The texture of one that is kept; bare canvas where there is none. */
  of(picture: StageTexture | undefined): DataTexture {
    return (picture && this.kept.get(picture)) ?? this.bare;
  }

  get count(): number {
    return this.kept.size;
  }

  /** With the smaller copies, down to one pixel. */
  get bytes(): number {
    let sum = 0;
    for (const { widthPx, heightPx } of this.kept.keys()) {
      let [width, height] = [widthPx, heightPx];
      for (;;) {
        sum += width * height * 4;
        if (width === 1 && height === 1) break;
        [width, height] = [Math.max(1, width >> 1), Math.max(1, height >> 1)];
      }
    }
    return sum;
  }

  /** Free the memory on the graphics processor; the next drawing uploads what it needs. */
  dispose(): void {
    this.bare.dispose();
    for (const texture of this.kept.values()) texture.dispose();
  }

  private place(picture: StageTexture, free: DataTexture[]): DataTexture {
    const { widthPx, heightPx, pixels } = picture;
    const index = free.findIndex(({ image }) => image.width === widthPx && image.height === heightPx);
    const [texture] = index < 0 ? [] : free.splice(index, 1);
    if (texture === undefined) return pictureTexture(picture, this.anisotropy);
    // The same size: the texture on the graphics processor is overwritten.
    texture.image.data = pixels;
    texture.needsUpdate = true;
    return texture;
  }
}

/** A square picture that repeats without a seam, on the graphics processor. */

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
