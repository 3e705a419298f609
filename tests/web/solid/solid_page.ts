/** A page with nothing but the solid. */

import { createSolid } from "../../../web/src/solid/solid";
import type { Solid } from "../../../web/src/solid/types";

interface GivenSolid {
  readonly lab: readonly number[];
  readonly srgb: readonly number[];
  readonly triangles: readonly number[];
}

interface GivenPoints {
  readonly lab: readonly number[];
  readonly printedLab: readonly number[];
  readonly srgb: readonly number[];
  readonly share: readonly number[];
  readonly difference: readonly number[];
}

class SolidPage {
  readonly solid: Solid;

  constructor(host: HTMLElement) {
    this.solid = createSolid(host, { reducedMotion: true });
  }

  setSolid({ lab, srgb, triangles }: GivenSolid): void {
    this.solid.setSolid({
      lab: new Float32Array(lab),
      srgb: new Uint8Array(srgb),
      triangles: new Uint32Array(triangles),
    });
  }

  setPoints({ lab, printedLab, srgb, share, difference }: GivenPoints): void {
    this.solid.setPoints({
      lab: new Float32Array(lab),
      printedLab: new Float32Array(printedLab),
      srgb: new Uint8Array(srgb),
      share: new Float32Array(share),
      difference: new Float32Array(difference),
    });
  }
}

const host = document.createElement("div");
host.style.cssText = "position:fixed;inset:0";
document.body.append(host);
Object.assign(window, { solidPage: new SolidPage(host) });
