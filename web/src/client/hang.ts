/** The 3D view in place of the page's drawings, with a caption over each pane. */
import { paneGrid, paneTemplate } from "../stage/panes/panes";
import { createStage } from "../stage/stage";
import type { Stage, StagePane, View } from "../stage/types";
import { element, pressable, reveal } from "./elements";
import type { Offer } from "./offer";
import { mark, say } from "../speech/say";

const VIEWS: readonly View[] = ["front", "side", "corner", "back"];
const LOST = mark("The 3D view stopped; it is being restarted. Until then the drawings show the same canvas.");
const GIVEN_UP = mark("The 3D view has stopped; the drawings below show the same canvas.");

/** Show the offer on the wall. Returns the function to call when another variant is chosen. */
export function hang(offer: Offer, panes: readonly StagePane[]): (number: number) => void {
  let press: (view: string) => void = () => {};
  const stage = openStage((view) => press(view));
  press = pressable("views", "view", (word) => {
    const view = VIEWS.find((one) => one === word);
    if (view !== undefined) stage.setView(view);
  });
  const caption = captionsOf(offer, (highPx) => stage.setFoot(highPx));
  followTheme(stage);
  stage.setSurroundings(offer.surroundings);
  stage.setAt(1);

  let all = false;
  let chosen = 0;
  const refresh = (): void => {
    const numbers = all ? offer.variants.map((_, number) => number) : [chosen];
    stage.setPanes(numbers.flatMap((number): StagePane[] => panes.slice(number, number + 1)));
    caption(numbers);
  };
  pressable("many", "many", (word) => {
    all = word === "all";
    refresh();
  });
  reveal("turns", ...(offer.variants.length > 1 ? ["many"] : []));
  return (number) => {
    chosen = number;
    refresh();
  };
}

function openStage(onView: (view: string) => void): Stage {
  const wall = element("wall", HTMLElement);
  const show = (stands: boolean, reason: string): void => {
    element("frame", HTMLElement).hidden = !stands;
    element("stills", HTMLElement).hidden = stands;
    element("why", HTMLElement).textContent = reason;
  };
  // The stage measures its place, so that this must be seen before.
  show(true, "");
  try {
    return createStage(wall, {
      reducedMotion: matchMedia("(prefers-reduced-motion: reduce)").matches,
      onView,
      onLost: () => show(false, say(LOST)),
      onGivenUp: () => show(false, say(GIVEN_UP)),
      onRestored: () => show(true, ""),
    });
  } catch (failure) {
    show(false, "");
    throw failure;
  }
}

function followTheme(stage: Stage): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const paint = (): void => stage.setTheme(dark.matches ? "dark" : "light");
  dark.addEventListener("change", paint);
  paint();
}

/**
 * Returns the function that writes the captions of the variants shown. How high they are, CSS pixels, is told whenever
 * it may have changed. Screen readers find them beside the choice.
 */
function captionsOf(offer: Offer, tell: (highPx: number) => void): (numbers: readonly number[]) => void {
  const host = element("captions", HTMLElement);
  const wall = element("wall", HTMLElement);
  const place = (): void => {
    // A hidden view has no size; it is told again when it is seen.
    if (wall.clientWidth === 0) return;
    const count = host.childElementCount;
    const grid = paneGrid(count, wall.clientWidth / Math.max(1, wall.clientHeight));
    host.style.gridTemplate = paneTemplate(grid);
    host.dataset["rest"] = String(grid.columns * grid.rows > count);
    tell(Math.max(0, ...[...host.children].map((one) => one.getBoundingClientRect().height)));
  };
  new ResizeObserver(place).observe(wall);
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
    place();
  };
}
