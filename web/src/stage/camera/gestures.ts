/** Pointers and keys as movements of the camera, in numbers. */

export interface Touch {
  readonly x: number;
  readonly y: number;
}

/** Pixels to turn or to pan by, and the factor to zoom by (below 1 comes nearer). */
export interface Wish {
  readonly turnX: number;
  readonly turnY: number;
  readonly panX: number;
  readonly panY: number;
  readonly zoom: number;
}

export const NOTHING: Wish = { turnX: 0, turnY: 0, panX: 0, panY: 0, zoom: 1 };

const middle = (a: Touch, b: Touch): Touch => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
const apart = (a: Touch, b: Touch): number => Math.hypot(a.x - b.x, a.y - b.y);

/** The wish of fingers that moved from `before` to `after`: one turns (or pans), two pan and zoom. */
export function pointerWish(before: readonly Touch[], after: readonly Touch[], panning: boolean): Wish {
  const [a0, b0] = before;
  const [a1, b1] = after;
  if (a0 === undefined || a1 === undefined) return NOTHING;
  if (b0 === undefined || b1 === undefined) {
    const x = a1.x - a0.x;
    const y = a1.y - a0.y;
    return panning ? { ...NOTHING, panX: x, panY: y } : { ...NOTHING, turnX: x, turnY: y };
  }
  const from = middle(a0, b0);
  const to = middle(a1, b1);
  // Fingers nearly on one point would make the factor wild.
  const zoom = Math.max(apart(a0, b0), 8) / Math.max(apart(a1, b1), 8);
  return { ...NOTHING, panX: to.x - from.x, panY: to.y - from.y, zoom };
}

/** The zoom of a wheel: `deltaMode` 0 counts pixels, 1 lines, 2 pages. */
export function wheelZoom(delta: number, deltaMode: number): number {
  const pixels = delta * (deltaMode === 1 ? 16 : deltaMode === 2 ? 400 : 1);
  return Math.exp(Math.max(-240, Math.min(240, pixels)) * 0.0013);
}

const KEY_STEP_PX = 42;

/** Turning left by the arrow brings the left of the piece to the front, as dragging to the right does. */
const ARROWS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["ArrowLeft", [1, 0]],
  ["ArrowRight", [-1, 0]],
  ["ArrowUp", [0, 1]],
  ["ArrowDown", [0, -1]],
]);

/** The wish of a key, or nothing where the key means nothing here. Home is left to the caller. */
export function keyWish(key: string, shift: boolean): Wish | undefined {
  const arrow = ARROWS.get(key);
  if (arrow !== undefined) {
    const [x, y] = [arrow[0] * KEY_STEP_PX, arrow[1] * KEY_STEP_PX];
    return shift ? { ...NOTHING, panX: x, panY: y } : { ...NOTHING, turnX: x, turnY: y };
  }
  if (key === "+" || key === "=") return { ...NOTHING, zoom: 1 / 1.15 };
  if (key === "-" || key === "_") return { ...NOTHING, zoom: 1.15 };
  return undefined;
}
