// The focus is never lost: where the focused control goes away, a neighbour of the same group takes the focus.

/** What Tab can reach, as far as a selector says it. */
const REACHED = "a[href], button, input, select, textarea, summary, [tabindex]";

/** An ancestor of the focused control, and which of its controls that is. */
interface Around {
  readonly ancestor: Element;
  readonly place: number;
}

/** The controls inside an element that Tab reaches, in order. */
function controlsIn(within: Element): HTMLElement[] {
  return [...within.querySelectorAll<HTMLElement>(REACHED)].filter(
    (one) => one.tabIndex >= 0 && !one.matches(":disabled") && one.checkVisibility(),
  );
}

/** From the nearest ancestor on. */
function around(control: Element, page: Element): Around[] {
  const found: Around[] = [];
  for (let up = control.parentElement; up !== null && up !== page; up = up.parentElement) {
    const before = controlsIn(up).filter(
      (one) => (one.compareDocumentPosition(control) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
    );
    found.push({ ancestor: up, place: before.length });
  }
  return found;
}

function isUsable(control: Element): boolean {
  return control.isConnected && !control.matches(":disabled") && control.checkVisibility();
}

/**
 * Watch the focus inside `page`.
 *
 * A control that is removed, hidden or disabled while it has the focus would leave it to the document, and the
 * next Tab would begin at the top of the page. The control that stands in its place in the nearest ancestor
 * that is left gets the focus instead: Stop in the place of Save, and Save again when the file is made.
 */
export function keepFocus(page: Element): void {
  let control: Element | undefined;
  let trail: Around[] = [];
  const remember = (target: EventTarget | null): void => {
    if (!(target instanceof Element) || !page.contains(target)) return;
    control = target;
    trail = around(target, page);
  };
  page.addEventListener("focusin", ({ target }) => remember(target));
  // Before the control acts, since its neighbours may have changed after it got the focus.
  page.addEventListener("click", ({ target }) => target === control && remember(target), { capture: true });
  // A press beside all controls gives the focus up on purpose.
  addEventListener("pointerdown", () => (control = undefined), { capture: true });
  addEventListener("keydown", stopRepeating, { capture: true });
  const look = (): void => {
    if (control === undefined || isUsable(control)) return;
    // A dialog that closes gives the focus back to what opened it, in a moment, and only if nothing else has it.
    if (control.closest("dialog:not([open])") !== null) return;
    const { activeElement } = document;
    const isElsewhere = activeElement !== null && activeElement !== document.body && activeElement !== control;
    if (!isElsewhere) neighbour(trail)?.focus({ preventScroll: true });
    if (document.activeElement !== control) document.activeElement?.scrollIntoView({ block: "nearest" });
  };
  new MutationObserver(look).observe(page, {
    subtree: true,
    childList: true,
    attributeFilter: ["disabled", "hidden", "open"],
  });
}

function neighbour(trail: readonly Around[]): HTMLElement | undefined {
  for (const { ancestor, place } of trail) {
    if (!ancestor.isConnected) continue;
    const controls = controlsIn(ancestor);
    const found = controls[Math.min(place, controls.length - 1)];
    if (found !== undefined) return found;
  }
  return undefined;
}

/** A key that is held down presses one button once: what takes the focus from it is not pressed too. */
function stopRepeating(event: KeyboardEvent): void {
  const presses = event.key === "Enter" || event.key === " ";
  if (event.repeat && presses && event.target instanceof HTMLButtonElement) event.preventDefault();
}
