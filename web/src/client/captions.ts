/** What each pane shows, written over it; said already beside the choice, so not for reading aloud. */

import { paneGrid, paneTemplate } from "../stage/panes";
import { element } from "./elements";
import type { Offer } from "./offer";

/** Gives what writes the captions of the variants that are shown. */
export function captionsOf(offer: Offer): (numbers: readonly number[]) => void {
  const host = element("captions", HTMLElement);
  const wall = element("wall", HTMLElement);
  const place = (count: number): void => {
    host.style.gridTemplate = paneTemplate(paneGrid(count, wall.clientWidth / Math.max(1, wall.clientHeight)));
  };
  new ResizeObserver(() => place(host.childElementCount)).observe(wall);
  return (numbers) => {
    host.replaceChildren(
      ...numbers.map((number) => {
        const { letter = "", label = "" } = offer.variants[number] ?? {};
        const one = document.createElement("span");
        one.dir = "auto";
        one.textContent = `${letter} ${label}`.trim();
        return one;
      }),
    );
    place(numbers.length);
  };
}
