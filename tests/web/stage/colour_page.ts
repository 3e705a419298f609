/** A page with nothing but a stage, on which one flat sheet hangs: for reading colours back from the screen. */

import { lookPixels } from "../../../web/src/stage/look/pixels";
import { createStage } from "../../../web/src/stage/stage";
import type { ColourView, Look, Stage, StageLabels, StageTexture } from "../../../web/src/stage/types";

/** A square sheet of 400 x 300 mm that is all face and never folds. */
const SHEET = {
  at: [0, 1],
  positions: new Float32Array([0, 1].flatMap(() => [0, 0, 0, 400, 0, 0, 400, 300, 0, 0, 300, 0])),
  uv: new Float32Array([0, 1, 1, 1, 1, 0, 0, 0]),
  triangles: new Uint32Array([0, 1, 2, 0, 2, 3]),
  outlines: new Uint32Array(0),
  creaseCount: 0,
  steps: [],
};
const SIZES = {
  faceWidthMm: 400,
  faceHeightMm: 300,
  depthMm: 20,
  turnoverMm: 0,
};

function bytes(base64: string): Uint8Array<ArrayBuffer> {
  // A loop takes a tenth of the time of `Uint8Array.from` with a function.
  const text = atob(base64);
  const found = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) found[i] = text.charCodeAt(i);
  return found;
}

const floats = (base64: string): Float32Array => new Float32Array(bytes(base64).buffer);
const halves = (base64: string): Uint16Array => new Uint16Array(bytes(base64).buffer);

interface GivenLook {
  readonly nodes: number;
  readonly curve: string;
  readonly printed: string;
  readonly filed?: string;
  readonly clipFullDe: number;
  readonly scale: string;
  readonly scaleFullDe: number;
}

class ColourPage {
  readonly lost: string[] = [];
  readonly stage: Stage;
  private look: Look | undefined;
  private texture: StageTexture | undefined;
  private labels: StageLabels | undefined;

  constructor(host: HTMLElement) {
    this.stage = createStage(host, {
      reducedMotion: true,
      onLost: () => this.lost.push("lost"),
      onRestored: () => this.lost.push("restored"),
    });
    this.show();
  }

  setLook(given: GivenLook): void {
    const { filed, ...rest } = given;
    this.look = {
      ...rest,
      curve: floats(given.curve),
      printed: halves(given.printed),
      scale: bytes(given.scale),
      ...(filed === undefined ? {} : { filed: halves(filed) }),
    };
    this.stage.setLook(this.look);
  }

  /** A texture of square patches; `colours` are red, green and blue of each, row by row. */
  setPatches(colours: string, columns: number, rows: number, patchPx: number, inked?: StageTexture["inked"]): void {
    const given = bytes(colours);
    const [widthPx, heightPx] = [columns * patchPx, rows * patchPx];
    const pixels = new Uint8Array(widthPx * heightPx * 4).fill(255);
    for (let y = 0; y < heightPx; y++)
      for (let x = 0; x < widthPx; x++) {
        const patch = 3 * (Math.floor(y / patchPx) * columns + Math.floor(x / patchPx));
        for (let i = 0; i < 3; i++) pixels[4 * (y * widthPx + x) + i] = given[patch + i] ?? 0;
      }
    this.texture = { pixels, widthPx, heightPx, ...(inked === undefined ? {} : { inked }) };
    this.show();
  }

  private show(): void {
    const piece = { fold: SHEET, sizes: SIZES, centreMm: [0, 0] as const };
    this.stage.setPanes([
      {
        pieces: [this.texture === undefined ? piece : { ...piece, texture: this.texture }],
      },
    ]);
  }

  setLabels(labels: string, widthPx: number, heightPx: number): void {
    this.labels = { labels: bytes(labels), widthPx, heightPx };
    this.stage.setLabels(this.labels.labels, widthPx, heightPx);
  }

  /** What the drawing without the graphics processor shows. */
  pixels(view: ColourView, thresholdDe: number, group: number): string {
    if (this.texture === undefined || this.look === undefined) throw new Error("give texture and look first");
    const seen = lookPixels(this.texture, this.look, view, thresholdDe, this.labels, group);
    let text = "";
    for (let i = 0; i < seen.length; i += 8192) text += String.fromCharCode(...seen.subarray(i, i + 8192));
    return btoa(text);
  }
}

const host = document.createElement("div");
host.style.cssText = "position:fixed;inset:0";
document.body.append(host);
Object.assign(window, { colourPage: new ColourPage(host) });
