/** The piece on the wall: canvas, bars and lines, hung as one group. */

import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  DynamicDrawUsage,
  Group,
  LinearFilter,
  LinearMipmapLinearFilter,
  Mesh,
  RGBAFormat,
  SRGBColorSpace,
  Vector4,
} from "three";
import type { BarMesh } from "./bars";
import { lineScene } from "./line_scene";
import { LookOnGpu } from "./look_uniforms";
import type { SheetUniforms } from "./piece_materials";
import { sheetMaterial, woodMaterial } from "./piece_materials";
import type { PieceShape } from "./piece_shape";
import type { StageTexture } from "./types";
import type { SharedUniforms } from "./uniforms";

export interface PieceScene {
  readonly group: Group;
  readonly look: LookOnGpu;
  /** Take another piece. */
  setShape(shape: PieceShape): void;
  /** Show the shape as it now is. */
  move(shape: PieceShape): void;
  setTexture(texture: StageTexture, anisotropy: number): void;
  setPixelRatio(ratio: number): void;
  dispose(): void;
}

function barGeometry(mesh: BarMesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(mesh.normals, 3));
  geometry.setAttribute("grain", new BufferAttribute(mesh.grain, 3));
  return geometry;
}

function sheetGeometry(shape: PieceShape): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(shape.corners, 3).setUsage(DynamicDrawUsage));
  geometry.setAttribute("normal", new BufferAttribute(shape.normals, 3).setUsage(DynamicDrawUsage));
  geometry.setAttribute("uv", new BufferAttribute(shape.uv, 2));
  return geometry;
}

/** The picture as a texture; the canvas's own colour until there is one. */
function pictureTexture(pixels: Uint8Array, widthPx: number, heightPx: number, anisotropy: number): DataTexture {
  const texture = new DataTexture(pixels, widthPx, heightPx, RGBAFormat);
  texture.colorSpace = SRGBColorSpace;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.anisotropy = anisotropy;
  texture.needsUpdate = true;
  return texture;
}

export function pieceScene(shared: SharedUniforms): PieceScene {
  let picture = pictureTexture(new Uint8Array([241, 236, 226, 255]), 1, 1, 1);
  const look = new LookOnGpu();
  const own: SheetUniforms = {
    ...look.uniforms,
    picture: { value: picture },
    opening: { value: new Vector4() },
    openingDeep: { value: 1 },
  };
  const canvas = sheetMaterial(shared, own);
  const wood = woodMaterial(shared);
  const sheet = new Mesh(new BufferGeometry(), canvas);
  const frame = new Mesh(new BufferGeometry(), wood);
  const lines = lineScene(shared);
  const group = new Group();
  group.visible = false;
  group.add(sheet, frame, lines.mesh);
  for (const mesh of [sheet, frame]) mesh.frustumCulled = false;

  return {
    group,
    look,
    setShape: (shape) => {
      sheet.geometry.dispose();
      sheet.geometry = sheetGeometry(shape);
      frame.geometry.dispose();
      frame.geometry = barGeometry(shape.bars);
      lines.setFold(shape.fold, shape.longestMm);
      const { faceWidthMm, faceHeightMm, depthMm } = shape.sizes;
      const inset = shape.bars.barWidthMm;
      own.opening.value.set(inset, inset, faceWidthMm - inset, faceHeightMm - inset);
      own.openingDeep.value = depthMm;
      group.visible = true;
    },
    move: (shape) => {
      for (const name of ["position", "normal"]) sheet.geometry.getAttribute(name).needsUpdate = true;
      lines.move(shape.vertices, shape.lineStrength);
      group.scale.setScalar(0.001);
      group.position.set(...shape.originM);
      group.updateMatrixWorld(true);
    },
    setTexture: (texture, anisotropy) => {
      const { pixels, widthPx, heightPx } = texture;
      look.setInked(texture);
      if (picture.image.width === widthPx && picture.image.height === heightPx) {
        // The same size: the texture on the graphics processor is written over, not made anew.
        picture.image.data = pixels;
        picture.needsUpdate = true;
        return;
      }
      picture.dispose();
      picture = pictureTexture(pixels, widthPx, heightPx, anisotropy);
      own.picture.value = picture;
    },
    setPixelRatio: (ratio) => lines.setPixelRatio(ratio),
    dispose: () => {
      for (const mesh of [sheet, frame]) mesh.geometry.dispose();
      for (const material of [canvas, wood]) material.dispose();
      lines.dispose();
      picture.dispose();
      look.dispose();
    },
  };
}
