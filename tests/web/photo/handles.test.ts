import { expect, it, vi } from "vitest";
import { movable } from "../../../web/src/photo/handles";
import type { Point } from "../../../web/src/photo/plane";

class Held extends EventTarget {
  setPointerCapture(): void {}
}

it("stays where the pointer led it last when the browser takes the pointer away", () => {
  const element = new Held();
  const to = vi.fn<(place: Point, done: boolean) => void>();
  movable(element as unknown as HTMLElement, () => 2, {
    from: () => [100, 50],
    to,
    step: () => {},
  });
  const pointer = (kind: string, clientX: number, clientY: number): void => {
    element.dispatchEvent(
      Object.assign(new Event(kind), {
        button: 0,
        pointerId: 1,
        clientX,
        clientY,
      }),
    );
  };
  pointer("pointerdown", 400, 300);
  pointer("pointermove", 410, 290);
  pointer("pointercancel", 0, 0);
  // Derived: 10 px right and 10 px up, of 2 px of the photograph each.
  expect(to.mock.calls).toEqual([
    [[120, 30], false],
    [[120, 30], true],
  ]);
  // One that has not moved stays.
  pointer("pointerdown", 400, 300);
  pointer("pointercancel", 0, 0);
  pointer("pointermove", 500, 500);
  expect(to).toHaveBeenCalledTimes(2);
});
