"""How far a control is from the page's beginning for somebody who has only keys: a measure from the DOM."""

from __future__ import annotations

from typing import Any, Final

from playwright.sync_api import Page

#: The stops of the Tab key in their order, and for each the fewest presses that lead to it from the page's
#: beginning. Tab and Shift+Tab cost one press each; Enter on a link into the page is free, and leads to the
#: place before the first stop inside or after its target. A group of radio buttons is one stop.
STOPS: Final = """() => {
  const reached = "a[href], button, input, select, textarea, summary, [tabindex]";
  const all = [...document.querySelectorAll(reached)].filter(
    (one) => one.tabIndex >= 0 && !one.matches(":disabled") && one.checkVisibility(),
  );
  const isFirst = (one) => {
    if (one.type !== "radio") return true;
    const group = all.filter((other) => other.type === "radio" && other.name === one.name);
    return one === (group.find((other) => other.checked) ?? group[0]);
  };
  const stops = all.filter(isFirst);
  const leads = stops.map((one) => {
    const id = one.getAttribute("href")?.match(/^#(.+)/)?.[1];
    const target = id === undefined ? null : document.getElementById(id);
    if (target === null) return undefined;
    const after = stops.findIndex((other) =>
      target.contains(other) || target.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING);
    return after < 0 ? stops.length : after;
  });
  const far = stops.map(() => Infinity);
  // A place between two stops: `at` is the stop that follows it.
  let places = [0], gone = new Set([0]);
  let here = [];
  for (let presses = 1; places.length + here.length > 0; presses++) {
    const next = new Set();
    for (const at of places) for (const to of [at, at - 1]) if (to in stops) next.add(to);
    for (const at of here) for (const to of [at + 1, at - 1]) if (to in stops) next.add(to);
    here = [...next].filter((to) => far[to] === Infinity);
    for (const to of here) far[to] = presses;
    places = here.map((to) => leads[to]).filter((to) => to !== undefined && !gone.has(to));
    for (const at of places) gone.add(at);
  }
  const named = (one) => one.getAttribute("aria-label") ?? (one.id || one.textContent.trim());
  return stops.map((one, at) => ({
    name: named(one), place: one.closest("section[id], header, nav, .stage")?.id ?? "", presses: far[at] }));
}"""


def tab_stops(page: Page) -> list[dict[str, Any]]:
    """The stops of the Tab key.

    Returns
    -------
    list of dict
        `name`, `place` (the section's id) and `presses` from the page's beginning, in the order of Tab.
    """
    found: list[dict[str, Any]] = page.evaluate(STOPS)
    return found
