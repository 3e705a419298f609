/** Things that are moved over the photograph by pointer and by keys. */
import { keyStep } from "./placing";
import type { Point } from "./plane";

/** How something follows pointer and keys; places are pixels of the photograph. */
export interface Moving {
  /** Where it is. */
  readonly from: () => Point;
  /** Moved by the pointer to a place. */
  readonly to: (place: Point, done: boolean) => void;
  /** Moved by the arrow keys: so many steps right and up. */
  readonly step: (steps: Point) => void;
  /** It has the pointer or the focus, or has them no more. */
  readonly held?: (held: boolean) => void;
}

/** Let an element be moved. `perPx` says how many of the photograph's pixels one of the screen's is. */
export function movable(element: HTMLElement, perPx: () => number, moving: Moving): void {
  let grip: { readonly pointer: Point; readonly place: Point } | undefined;
  /** Where the pointer has led it last. */
  let latest: Point | undefined;
  const place = ({ clientX, clientY }: PointerEvent): Point | undefined => {
    if (grip === undefined) return undefined;
    const by = perPx();
    return [grip.place[0] + (clientX - grip.pointer[0]) * by, grip.place[1] + (clientY - grip.pointer[1]) * by];
  };
  element.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    grip = { pointer: [event.clientX, event.clientY], place: moving.from() };
    latest = undefined;
    moving.held?.(true);
  });
  element.addEventListener("pointermove", (event) => {
    const now = place(event);
    if (now === undefined) return;
    latest = now;
    moving.to(now, false);
  });
  const end = (at: Point | undefined): void => {
    grip = undefined;
    if (at !== undefined) moving.to(at, true);
    if (document.activeElement !== element) moving.held?.(false);
  };
  element.addEventListener("pointerup", (event) => end(place(event)));
  // Where the browser takes the pointer away, it may name no place.
  element.addEventListener("pointercancel", () => end(grip === undefined ? undefined : latest));
  element.addEventListener("focus", () => moving.held?.(true));
  element.addEventListener("blur", () => moving.held?.(false));
  element.addEventListener("keydown", (event) => {
    const steps = event.ctrlKey || event.metaKey || event.altKey ? undefined : keyStep(event);
    if (steps === undefined) return;
    event.preventDefault();
    moving.step(steps);
  });
}

/** A round handle whose middle is open, so that the place under it is seen. */
export function roundHandle(id: string): HTMLButtonElement {
  const handle = document.createElement("button");
  handle.type = "button";
  handle.dataset["handle"] = id;
  handle.style.cssText =
    "position:absolute;inline-size:28px;block-size:28px;min-block-size:0;margin:-14px 0 0 -14px;padding:0;" +
    "border:2px solid var(--accent);border-radius:50%;background:none;box-shadow:0 0 0 1.5px #fff,inset 0 0 0 1.5px #fff;" +
    "cursor:move;touch-action:none;z-index:2";
  return handle;
}
