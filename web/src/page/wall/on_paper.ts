// The stage on paper. What is on it was laid out and drawn for its size on the screen; a browser that prints measures
// nothing again, so the stage keeps that size and is scaled as a whole.

/** What fits between the margins of upright A4 or Letter, with room for the text below it, in px of CSS. */
const PAPER = { width: 640, height: 480 };

/** How large the stage is on paper: 1 or less. */
export function paperScale({ width, height }: { readonly width: number; readonly height: number }): number {
  return Math.min(1, PAPER.width / Math.max(1, width), PAPER.height / Math.max(1, height));
}

/** Say the stage's size to the style sheet whenever the page is about to be printed. */
export function fitStageOnPaper(): void {
  addEventListener("beforeprint", () => {
    const stage = document.querySelector<HTMLElement>(".stage-picture");
    if (stage === null) return;
    const size = { width: stage.offsetWidth, height: stage.offsetHeight };
    stage.style.setProperty("--seen-wide", `${size.width}px`);
    stage.style.setProperty("--seen-high", `${size.height}px`);
    stage.style.setProperty("--on-paper", String(paperScale(size)));
  });
}
