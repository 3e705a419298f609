import { expect, it } from "vitest";
import { Gesture } from "../../../../../web/src/page/state/work/gesture";

it("keeps one step from press to release, however long the hand rests", () => {
  const gesture = new Gesture("depth");
  gesture.press();
  const first = gesture.changeId(0);
  expect(gesture.changeId(60_000)).toBe(first);
  gesture.release();
  expect(gesture.changeId(60_001)).not.toBe(first);
});

it("runs keys together that follow quickly, and begins anew after a pause", () => {
  const gesture = new Gesture("depth");
  const first = gesture.changeId(0);
  expect(gesture.changeId(500)).toBe(first);
  expect(gesture.changeId(1300)).toBe(first);
  expect(gesture.changeId(2300)).not.toBe(first);
});

it("never shares a step between two controls", () => {
  expect(new Gesture("depth").changeId(0)).not.toBe(new Gesture("depth").changeId(0));
});
