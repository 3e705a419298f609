/** Listens to pointers, wheel and keys on one element, and passes on the movements of the camera. */

import { keyWish, NOTHING, pointerWish, type Touch, wheelZoom, type Wish } from "./gestures";

export interface ControlsTarget {
  wish(wish: Wish): void;
  home(): void;
}

/** Starts to listen; call what it returns to stop. */
export function listen(element: HTMLElement, target: ControlsTarget): () => void {
  const fingers = new Map<number, Touch>();
  const ending = new AbortController();
  const options = { signal: ending.signal };
  let panning = false;

  const down = (event: PointerEvent): void => {
    if (fingers.size >= 2) return;
    panning = event.button === 1 || event.button === 2 || event.shiftKey;
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    element.setPointerCapture(event.pointerId);
  };
  const move = (event: PointerEvent): void => {
    if (!fingers.has(event.pointerId)) return;
    const before = [...fingers.values()];
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    target.wish(pointerWish(before, [...fingers.values()], panning));
  };
  const up = (event: PointerEvent): void => {
    fingers.delete(event.pointerId);
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    target.wish({ ...NOTHING, zoom: wheelZoom(event.deltaY, event.deltaMode) });
  };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Home") {
      event.preventDefault();
      target.home();
      return;
    }
    const wish = keyWish(event.key, event.shiftKey);
    if (wish === undefined) return;
    event.preventDefault();
    target.wish(wish);
  };

  element.addEventListener("pointerdown", down, options);
  element.addEventListener("pointermove", move, options);
  element.addEventListener("pointerup", up, options);
  element.addEventListener("pointercancel", up, options);
  element.addEventListener("lostpointercapture", up, options);
  element.addEventListener("wheel", wheel, { ...options, passive: false });
  element.addEventListener("keydown", key, options);
  // The right button pans.
  element.addEventListener("contextmenu", (event) => event.preventDefault(), options);
  return () => ending.abort();
}
