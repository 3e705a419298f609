/** Draws pieces and their shadows over a photograph: the one file of this folder that touches the graphics processor. */
import { FrameLoop } from "../stage/drawing/loop";
import type { StagePiece, StageTexture } from "../stage/types";
import type { Look, RoomLight } from "./light";
import { FLOATS_PER_CORNER, pieceMesh } from "./piece_mesh";
import type { Camera, Point } from "./plane";
import { PainterUnavailable, Program } from "./program";
import { CANVAS_FRAGMENT, CANVAS_VERTEX, SHADOW_FRAGMENT, SHADOW_REACH, SHADOW_VERTEX } from "./shaders";

/** All that a drawing depends on. */
export interface Painting {
  readonly pieces: readonly StagePiece[];
  readonly camera: Camera;
  /** Width and height of the photograph. */
  readonly photo: Point;
  /** The middle of what hangs, mm on the wall. */
  readonly at: Point;
  readonly light: RoomLight;
  readonly look: Look;
  /** What stands before the piece: opaque there. */
  readonly inFront?: HTMLCanvasElement;
  /** Rises when `inFront` was painted on. */
  readonly strokes: number;
}

interface Mesh {
  readonly buffer: WebGLVertexArrayObject;
  readonly corners: number;
}

/** What is on the graphics processor; made anew after it was lost. */
interface Kept {
  readonly gl: WebGL2RenderingContext;
  readonly canvas: Program;
  readonly shadow: Program;
  readonly square: WebGLVertexArrayObject;
  readonly mask: WebGLTexture;
  readonly meshes: Map<StagePiece, Mesh>;
  readonly textures: Map<StageTexture, WebGLTexture>;
}

export class PiecePainter {
  private kept: Kept | undefined;
  private painting: Painting | undefined;
  private masked: { readonly from: HTMLCanvasElement | undefined; readonly strokes: number } | undefined;
  private readonly loop = new FrameLoop(() => {
    this.draw();
    return false;
  });
  /** Frames drawn since it was made. */
  frames = 0;

  /** `drawn` is called after each frame. Throws where there is no WebGL 2. */
  constructor(
    readonly element: HTMLCanvasElement,
    private readonly drawn: (frames: number) => void = () => {},
  ) {
    this.kept = newKept(element);
    element.addEventListener("webglcontextlost", this.lost);
    element.addEventListener("webglcontextrestored", this.restored);
  }

  /** Draw this from now on; nothing is drawn when it is what was drawn. */
  paint(next: Painting | undefined): void {
    if (same(this.painting, next)) return;
    this.painting = next;
    this.loop.touch();
  }

  setSize(widthPx: number, heightPx: number): void {
    const [width, height] = [Math.max(1, Math.round(widthPx)), Math.max(1, Math.round(heightPx))];
    if (this.element.width === width && this.element.height === height) return;
    this.element.width = width;
    this.element.height = height;
    this.loop.touch();
  }

  dispose(): void {
    this.loop.dispose();
    this.element.removeEventListener("webglcontextlost", this.lost);
    this.element.removeEventListener("webglcontextrestored", this.restored);
    this.kept?.gl.getExtension("WEBGL_lose_context")?.loseContext();
    this.kept = undefined;
  }

  private readonly lost = (event: Event): void => {
    event.preventDefault();
    this.kept = undefined;
    this.masked = undefined;
  };

  private readonly restored = (): void => {
    this.kept = newKept(this.element);
    this.loop.touch();
  };

  private draw(): void {
    const { kept, painting } = this;
    if (kept === undefined) return;
    const { gl } = kept;
    gl.viewport(0, 0, gl.drawingBufferWidth, gl.drawingBufferHeight);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    if (painting !== undefined) {
      this.giveMask(kept, painting);
      drop(kept, painting.pieces);
      drawShadows(kept, painting);
      drawCanvases(kept, painting);
    }
    this.frames += 1;
    this.drawn(this.frames);
  }

  private giveMask({ gl, mask }: Kept, { inFront, strokes }: Painting): void {
    gl.activeTexture(gl.TEXTURE1);
    gl.bindTexture(gl.TEXTURE_2D, mask);
    if (this.masked?.from === inFront && this.masked?.strokes === strokes) return;
    this.masked = { from: inFront, strokes };
    if (inFront === undefined) {
      gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, 1, 1, 0, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    } else gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, gl.RGBA, gl.UNSIGNED_BYTE, inFront);
  }
}

function same(one: Painting | undefined, other: Painting | undefined): boolean {
  if (one === undefined || other === undefined) return one === other;
  const { look, ...rest } = one;
  return (
    rest.pieces === other.pieces &&
    rest.camera === other.camera &&
    rest.light === other.light &&
    rest.inFront === other.inFront &&
    rest.strokes === other.strokes &&
    rest.at[0] === other.at[0] &&
    rest.at[1] === other.at[1] &&
    rest.photo[0] === other.photo[0] &&
    rest.photo[1] === other.photo[1] &&
    look.amount === other.look.amount &&
    look.shadow === other.look.shadow &&
    look.fromDeg === other.look.fromDeg
  );
}

/** Free what belongs to pieces that hang no more. */
function drop({ gl, meshes, textures }: Kept, pieces: readonly StagePiece[]): void {
  for (const [piece, { buffer }] of meshes) {
    if (pieces.includes(piece)) continue;
    gl.deleteVertexArray(buffer);
    meshes.delete(piece);
  }
  for (const [texture, made] of textures) {
    if (pieces.some((piece) => piece.texture === texture)) continue;
    gl.deleteTexture(made);
    textures.delete(texture);
  }
}

function drawShadows({ gl, shadow, square }: Kept, painting: Painting): void {
  const { pieces, look } = painting;
  if (look.shadow === 0) return;
  gl.disable(gl.DEPTH_TEST);
  gl.bindVertexArray(square);
  for (const { sizes, centreMm } of pieces) {
    shadow.use(painting, [painting.at[0] + centreMm[0], painting.at[1] + centreMm[1]]);
    gl.uniform2f(shadow.place("size"), sizes.faceWidthMm, sizes.faceHeightMm);
    gl.uniform1f(shadow.place("depth"), sizes.depthMm);
    gl.uniform1f(shadow.place("reach"), SHADOW_REACH * sizes.depthMm);
    gl.uniform1f(shadow.place("strength"), look.shadow);
    gl.drawArrays(gl.TRIANGLE_STRIP, 0, 4);
  }
}

function drawCanvases(kept: Kept, painting: Painting): void {
  const { gl, canvas } = kept;
  const { light, look, pieces } = painting;
  gl.enable(gl.DEPTH_TEST);
  canvas.use(painting, painting.at);
  gl.uniform3f(canvas.place("white"), ...light.white);
  gl.uniform2f(canvas.place("middle"), ...light.middleMm);
  gl.uniform2f(canvas.place("fall"), ...light.fall);
  gl.uniform1f(canvas.place("limit"), Math.log(light.mostFactor));
  gl.uniform1f(canvas.place("amount"), look.amount);
  gl.uniform1i(canvas.place("canvas"), 0);
  for (const piece of pieces) {
    const { buffer, corners } = kept.meshes.get(piece) ?? newMesh(kept, piece);
    gl.activeTexture(gl.TEXTURE0);
    gl.bindTexture(gl.TEXTURE_2D, piece.texture === undefined ? null : textureOf(kept, piece.texture));
    gl.bindVertexArray(buffer);
    gl.drawArrays(gl.TRIANGLES, 0, corners);
  }
}

function newKept(element: HTMLCanvasElement): Kept {
  const gl = element.getContext("webgl2", { alpha: true, antialias: true, premultipliedAlpha: true });
  if (gl === null) throw new PainterUnavailable("WebGL 2 is not there");
  gl.enable(gl.BLEND);
  gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
  const mask = gl.createTexture();
  gl.activeTexture(gl.TEXTURE1);
  gl.bindTexture(gl.TEXTURE_2D, mask);
  for (const [name, value] of [
    [gl.TEXTURE_MIN_FILTER, gl.LINEAR],
    [gl.TEXTURE_MAG_FILTER, gl.LINEAR],
    [gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE],
    [gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE],
  ] as const) {
    gl.texParameteri(gl.TEXTURE_2D, name, value);
  }
  const shadow = new Program(gl, SHADOW_VERTEX, SHADOW_FRAGMENT);
  const square = gl.createVertexArray();
  gl.bindVertexArray(square);
  gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
  gl.bufferData(gl.ARRAY_BUFFER, new Float32Array([-1, -1, 1, -1, -1, 1, 1, 1]), gl.STATIC_DRAW);
  shadow.attribute("corner", 2, 2, 0);
  const canvas = new Program(gl, CANVAS_VERTEX, CANVAS_FRAGMENT);
  return { gl, canvas, shadow, square, mask, meshes: new Map(), textures: new Map() };
}

function newMesh({ gl, canvas, meshes }: Kept, piece: StagePiece): Mesh {
  const corners = pieceMesh(piece);
  const buffer = gl.createVertexArray();
  gl.bindVertexArray(buffer);
  gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
  gl.bufferData(gl.ARRAY_BUFFER, corners, gl.STATIC_DRAW);
  canvas.attribute("position", 3, FLOATS_PER_CORNER, 0);
  canvas.attribute("normal", 3, FLOATS_PER_CORNER, 3);
  canvas.attribute("uv", 2, FLOATS_PER_CORNER, 6);
  const made = { buffer, corners: corners.length / FLOATS_PER_CORNER };
  meshes.set(piece, made);
  return made;
}

/** Decoded and averaged in linear light by the graphics processor. */
function textureOf({ gl, textures }: Kept, texture: StageTexture): WebGLTexture {
  const known = textures.get(texture);
  if (known !== undefined) return known;
  const made = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, made);
  const { widthPx, heightPx, pixels } = texture;
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.SRGB8_ALPHA8, widthPx, heightPx, 0, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
  gl.generateMipmap(gl.TEXTURE_2D);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR_MIPMAP_LINEAR);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
  const finer = gl.getExtension("EXT_texture_filter_anisotropic");
  if (finer !== null) gl.texParameterf(gl.TEXTURE_2D, finer.TEXTURE_MAX_ANISOTROPY_EXT, 8);
  textures.set(texture, made);
  return made;
}
