/** Labels of the axes over the drawing, placed where the camera sees their points. */

import { type PerspectiveCamera, Vector3 } from "three";
import type { AxisLabel } from "./axes";

export class AxisLabels {
  readonly element = document.createElement("div");
  private spans: { readonly span: HTMLSpanElement; readonly at: Vector3 }[] = [];
  private readonly place = new Vector3();

  constructor() {
    // The figures mean nothing without the drawing, which has a description of its own.
    this.element.setAttribute("aria-hidden", "true");
    this.element.style.cssText =
      "position:absolute;inset:0;overflow:hidden;pointer-events:none;font-size:0.6875rem;line-height:1;" +
      "font-variant-numeric:tabular-nums";
  }

  set(labels: readonly AxisLabel[]): void {
    while (this.spans.length > labels.length) this.spans.pop()?.span.remove();
    labels.forEach((label, i) => {
      const known = this.spans[i];
      const span = known?.span ?? document.createElement("span");
      if (known === undefined) {
        span.style.cssText = "position:absolute;left:0;top:0;white-space:nowrap;will-change:transform";
        this.element.append(span);
        this.spans.push({ span, at: new Vector3(...label.at) });
      } else {
        known.at.set(...label.at);
      }
      if (span.textContent !== label.text) span.textContent = label.text;
      span.style.opacity = label.isName ? "1" : "0.8";
      span.style.fontSize = label.isName ? "0.8125rem" : "inherit";
    });
  }

  setInk(ink: string): void {
    this.element.style.color = ink;
  }

  /** Place every label where the camera sees its point, in a drawing of so many CSS pixels. */
  show(camera: PerspectiveCamera, widthPx: number, heightPx: number): void {
    for (const { span, at } of this.spans) {
      this.place.copy(at).project(camera);
      const x = (this.place.x * 0.5 + 0.5) * widthPx;
      const y = (0.5 - this.place.y * 0.5) * heightPx;
      span.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
    }
  }
}
