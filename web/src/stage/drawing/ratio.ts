/** How finely a drawing is made for this screen. */

/** More device pixels than two for each CSS pixel cost time and show nothing. */
const MOST = 2;

/** Device pixels of a drawing for each CSS pixel. */
export function drawnRatio(): number {
  return Math.min(MOST, window.devicePixelRatio);
}
