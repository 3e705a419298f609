import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Glide } from "../../../../web/src/page/wall/glide";

let frames: ((now: number) => void)[] = [];
beforeEach(() => {
  frames = [];
  vi.stubGlobal("requestAnimationFrame", (callback: (now: number) => void) => frames.push(callback));
  vi.stubGlobal("cancelAnimationFrame", () => (frames = []));
});
afterEach(() => vi.unstubAllGlobals());

function draw(now: number): void {
  const due = frames;
  frames = [];
  for (const one of due) one(now);
}

it("moves evenly and ends exactly where it was sent", () => {
  const seen: number[] = [];
  new Glide((value) => seen.push(value)).go(1, 0, 1000);
  for (const now of [100, 350, 600, 1100, 1200]) draw(now);
  // Derived: 0, 250, 500 and 1000 ms after the first frame; nothing is drawn after the end.
  expect(seen).toEqual([1, 0.75, 0.5, 0]);
});

it("is there at once where motion is not wanted", () => {
  const seen: number[] = [];
  new Glide((value) => seen.push(value)).go(0.2, 1, 0);
  expect(seen).toEqual([1]);
  expect(frames).toEqual([]);
});

it("stops when the hand takes over", () => {
  const seen: number[] = [];
  const glide = new Glide((value) => seen.push(value));
  glide.go(0, 1, 1000);
  draw(0);
  glide.stop();
  draw(500);
  expect(seen).toEqual([0]);
});
