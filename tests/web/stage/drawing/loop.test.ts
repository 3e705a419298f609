import { describe, expect, it } from "vitest";
import { type Clock, FrameLoop } from "../../../../web/src/stage/drawing/loop";

/** A clock that ticks when told to. */
class HandClock implements Clock {
  readonly asked = new Map<number, (timeMs: number) => void>();
  private next = 1;

  request(step: (timeMs: number) => void): number {
    this.asked.set(this.next, step);
    this.next += 1;
    return this.next - 1;
  }

  cancel(handle: number): void {
    this.asked.delete(handle);
  }

  tick(timeMs: number): void {
    const steps = [...this.asked.values()];
    this.asked.clear();
    for (const step of steps) step(timeMs);
  }
}

describe("FrameLoop", () => {
  it("draws once for many changes, then asks for nothing more", () => {
    const clock = new HandClock();
    let drawn = 0;
    const loop = new FrameLoop(() => {
      drawn += 1;
      return false;
    }, clock);
    expect(clock.asked.size).toBe(0);
    loop.touch();
    loop.touch();
    loop.touch();
    expect(clock.asked.size).toBe(1);
    clock.tick(0);
    expect(drawn).toBe(1);
    expect(clock.asked.size).toBe(0);
  });

  it("goes on while something moves, with the time between frames", () => {
    const clock = new HandClock();
    const steps: number[] = [];
    const loop = new FrameLoop((dtS) => {
      steps.push(dtS);
      return steps.length < 4;
    }, clock);
    loop.touch();
    for (const timeMs of [1000, 1016, 1036, 9000]) clock.tick(timeMs);
    // derived: the first frame has no frame before it; the last pause of 7.964 s is held to 0.1 s.
    [0, 0.016, 0.02, 0.1].forEach((dt, i) => expect(steps[i]).toBeCloseTo(dt, 12));
    expect(clock.asked.size).toBe(0);
  });

  it("starts a new motion from no time at all", () => {
    const clock = new HandClock();
    const steps: number[] = [];
    const loop = new FrameLoop((dtS) => {
      steps.push(dtS);
      return false;
    }, clock);
    loop.touch();
    clock.tick(0);
    loop.touch();
    clock.tick(5000);
    expect(steps).toEqual([0, 0]);
  });

  it("is silent once it is disposed of", () => {
    const clock = new HandClock();
    const loop = new FrameLoop(() => true, clock);
    loop.touch();
    loop.dispose();
    loop.touch();
    expect(clock.asked.size).toBe(0);
  });
});
