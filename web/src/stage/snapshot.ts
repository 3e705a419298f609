import { say } from "../speech/say";

/** A snapshot of the stage's latest picture, outside the graphics processor: it stays when the context is lost. */

/** The picture has been at rest for so long before it is copied, so that no motion waits for a copy. */
const REST_MS = 400;
const LONGEST_PX = 1600;

export class Snapshot {
  private readonly copy = document.createElement("canvas");
  private readonly context: CanvasRenderingContext2D | null;
  private timer = 0;
  private full = false;

  constructor(private readonly source: HTMLCanvasElement) {
    // In the page's own memory, as the graphics processor's memory is lost with the context.
    this.context = this.copy.getContext("2d", { willReadFrequently: true });
    this.copy.className = "stage-snapshot";
    this.copy.setAttribute("role", "img");
    this.copy.setAttribute("aria-label", say("The canvas on the wall as it was last drawn; it cannot be turned now."));
    this.copy.style.cssText = "position:absolute;inset:0;width:100%;height:100%";
  }

  /** A frame has been drawn. */
  touch(): void {
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.keep(), REST_MS);
  }

  /** Put the copy in front of the stage's own picture, if there is one. */
  show(): void {
    clearTimeout(this.timer);
    if (this.full) this.source.after(this.copy);
  }

  hide(): void {
    this.copy.remove();
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.copy.remove();
  }

  private keep(): void {
    const { width, height } = this.source;
    // A page that is laid out anew, or zoomed far out, may have no room for the view; the last copy stays.
    if (width === 0 || height === 0) return;
    const scale = Math.min(1, LONGEST_PX / Math.max(width, height));
    this.copy.width = Math.max(1, Math.round(width * scale));
    this.copy.height = Math.max(1, Math.round(height * scale));
    this.context?.drawImage(this.source, 0, 0, this.copy.width, this.copy.height);
    this.full = true;
  }
}
