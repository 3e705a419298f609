/** The brush that paints things in front over the piece, by pointer, or by arrow keys and the space bar. */
import { mark, say } from "../speech/say";
import { keyStep } from "./placing";
import type { Point } from "./plane";
import type { PhotoState } from "./state";
import type { Stroke } from "./strokes";

const LABEL = mark(
  "Brush: arrow keys move it, Shift and arrow keys move it far, the space bar paints a spot, Ctrl and Z takes it back",
);

interface BrushHands {
  readonly perPx: () => number;
  readonly state: () => PhotoState | undefined;
  readonly paint: (stroke: Stroke) => void;
  readonly undo: () => void;
  /** Show a stroke that is not finished; nothing ends it. */
  readonly preview: (stroke: Stroke | undefined) => void;
  /** Show where the brush is. */
  readonly ring: (at: Point | undefined) => void;
}

/** An element over the whole photograph that takes the brush's strokes. */
export function brushOver({ perPx, state, paint, undo, preview, ring }: BrushHands): { readonly element: HTMLElement } {
  const element = document.createElement("div");
  element.tabIndex = 0;
  element.hidden = true;
  element.dataset["handle"] = "brush";
  element.setAttribute("role", "application");
  element.setAttribute("aria-label", say(LABEL));
  element.style.cssText = "position:absolute;inset:0;cursor:crosshair;touch-action:none;z-index:2";
  let drawing: Point[] | undefined;
  let at: Point | undefined;
  const place = ({ clientX, clientY }: PointerEvent): Point => {
    const box = element.getBoundingClientRect();
    return [(clientX - box.left) * perPx(), (clientY - box.top) * perPx()];
  };
  const stroke = (points: readonly Point[]): Stroke => {
    const now = state();
    return { radiusPx: now?.radiusPx ?? 1, clears: now?.clears ?? false, points };
  };
  element.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    drawing = [place(event)];
    preview(stroke(drawing));
  });
  element.addEventListener("pointermove", (event) => {
    at = place(event);
    ring(at);
    if (drawing === undefined) return;
    drawing = [...drawing, at];
    preview(stroke(drawing));
  });
  const end = (): void => {
    if (drawing !== undefined) paint(stroke(drawing));
    drawing = undefined;
  };
  element.addEventListener("pointerup", end);
  element.addEventListener("pointercancel", () => {
    drawing = undefined;
    preview(undefined);
  });
  element.addEventListener("pointerleave", () => ring(undefined));
  element.addEventListener("blur", () => ring(undefined));
  element.addEventListener("focus", () => {
    const [width, height] = state()?.photo.px ?? [0, 0];
    at ??= [width / 2, height / 2];
    ring(at);
  });
  element.addEventListener("keydown", (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !event.shiftKey) {
      // Here it takes back a stroke, not a change of the job.
      event.preventDefault();
      event.stopPropagation();
      undo();
      return;
    }
    const steps = keyStep(event);
    const now = state();
    if (now === undefined || at === undefined) return;
    if (steps !== undefined) {
      const by = now.radiusPx / 2;
      const [width, height] = now.photo.px;
      at = [Math.min(width, Math.max(0, at[0] + steps[0] * by)), Math.min(height, Math.max(0, at[1] - steps[1] * by))];
      ring(at);
    } else if (event.key === " " || event.key === "Enter") paint(stroke([at]));
    else return;
    event.preventDefault();
  });
  return { element };
}
