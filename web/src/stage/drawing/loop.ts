/** Asks for a frame only when something changed, and for the next only while something still moves. */

export interface Clock {
  request(step: (timeMs: number) => void): number;
  cancel(handle: number): void;
}

/** The browser's own clock. */
const screenClock: Clock = {
  request: (step) => requestAnimationFrame(step),
  cancel: (handle) => cancelAnimationFrame(handle),
};

/** The longest step that motion is given: after a pause nothing leaps. */
const LONGEST_STEP_S = 0.1;

export class FrameLoop {
  private handle: number | undefined;
  private lastMs: number | undefined;
  private ended = false;

  /** `draw` gets the seconds since the frame before (0 at rest) and says whether it must go on. */
  constructor(
    private readonly draw: (dtS: number) => boolean,
    private readonly clock: Clock = screenClock,
  ) {}

  /** Something changed: draw one frame soon. Any number of calls before it make one frame. */
  touch(): void {
    if (this.ended || this.handle !== undefined) return;
    this.handle = this.clock.request((timeMs) => this.step(timeMs));
  }

  dispose(): void {
    this.ended = true;
    if (this.handle !== undefined) this.clock.cancel(this.handle);
    this.handle = undefined;
  }

  private step(timeMs: number): void {
    this.handle = undefined;
    const dtS = this.lastMs === undefined ? 0 : Math.min(LONGEST_STEP_S, (timeMs - this.lastMs) / 1000);
    const again = this.draw(dtS);
    this.lastMs = again ? timeMs : undefined;
    if (again) this.touch();
  }
}
