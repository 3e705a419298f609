/** A page with nothing but a stage, on which panes of named folds and textures are hung. */

import { createStage } from "../../../web/src/stage/stage";
import type {
  Stage,
  StageFold,
  StageOptions,
  StagePane,
  StageSizes,
  StageTexture,
  StillOptions,
} from "../../../web/src/stage/types";

function bytes(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

function text(given: Uint8Array): string {
  let out = "";
  for (let i = 0; i < given.length; i += 8192) out += String.fromCharCode(...given.subarray(i, i + 8192));
  return btoa(out);
}

interface GivenFold {
  readonly at: readonly number[];
  readonly positions: string;
  readonly uv: string;
  readonly triangles: string;
  readonly outlines: string;
  readonly creaseCount: number;
  readonly sizes: StageSizes;
}

interface GivenPiece {
  readonly fold: string;
  readonly texture: string;
  readonly rows?: readonly [number, number];
  readonly centreMm: readonly [number, number];
}

class PanesPage {
  readonly said: string[] = [];
  readonly stage: Stage;
  private readonly folds = new Map<string, { fold: StageFold; sizes: StageSizes }>();
  private readonly textures = new Map<string, StageTexture>();

  constructor(host: HTMLElement) {
    const options: StageOptions = {
      reducedMotion: true,
      onLost: () => this.said.push("lost"),
      onGivenUp: () => this.said.push("given up"),
      onRestored: () => this.said.push("restored"),
    };
    this.stage = createStage(host, options);
  }

  giveFold(name: string, { sizes, ...fold }: GivenFold): void {
    const numbers = {
      positions: new Float32Array(bytes(fold.positions).buffer),
      uv: new Float32Array(bytes(fold.uv).buffer),
      triangles: new Uint32Array(bytes(fold.triangles).buffer),
      outlines: new Uint32Array(bytes(fold.outlines).buffer),
    };
    this.folds.set(name, { sizes, fold: { ...fold, ...numbers, steps: [] } });
  }

  giveTexture(name: string, pixels: string, widthPx: number, heightPx: number): void {
    this.textures.set(name, { pixels: bytes(pixels), widthPx, heightPx });
  }

  hang(panes: readonly (readonly GivenPiece[])[]): void {
    this.stage.setPanes(
      panes.map((pieces): StagePane => ({
        pieces: pieces.map((piece) => this.piece(piece)),
      })),
    );
  }

  /** The still as base64 of its PNG. */
  async still(widthPx: number, heightPx: number, options: StillOptions): Promise<string> {
    const blob = await this.stage.still(widthPx, heightPx, options);
    return text(new Uint8Array(await blob.arrayBuffer()));
  }

  async frame(widthPx: number, heightPx: number, turnRad: number): Promise<string> {
    return text(await this.stage.frame(widthPx, heightPx, turnRad));
  }

  private piece({ fold, texture, rows, centreMm }: GivenPiece): StagePane["pieces"][number] {
    const [known, picture] = [this.folds.get(fold), this.textures.get(texture)];
    if (known === undefined || picture === undefined) throw new Error("give folds and textures first");
    const own = rows === undefined ? {} : { rows: { topPx: rows[0], bottomPx: rows[1] } };
    return { ...known, ...own, texture: picture, centreMm };
  }
}

const host = document.createElement("div");
host.style.cssText = "position:fixed;inset:0";
document.body.append(host);
Object.assign(window, { panesPage: new PanesPage(host) });
