"""A page at rest: no frame and no short timer is still to come. The tests wait for that, not for a time."""

from __future__ import annotations

from typing import Final

from playwright.sync_api import Page

#: Counts the frames and timers that a page has asked for. It must run before the page's own scripts. Timers
#: of more than a second (an address given back, a message that goes) change nothing that a test waits for.
WATCH: Final = """(() => {
  if (window.toCome !== undefined) return;
  const frames = new Set(), timers = new Set();
  const request = window.requestAnimationFrame.bind(window);
  const cancel = window.cancelAnimationFrame.bind(window);
  const start = window.setTimeout.bind(window);
  const stop = window.clearTimeout.bind(window);
  window.toCome = { frames, timers, request };
  window.requestAnimationFrame = (step) => {
    const handle = request((time) => {
      frames.delete(handle);
      step(time);
    });
    frames.add(handle);
    return handle;
  };
  window.cancelAnimationFrame = (handle) => {
    frames.delete(handle);
    cancel(handle);
  };
  window.setTimeout = (work, delay = 0, ...given) => {
    const handle = start(() => {
      timers.delete(handle);
      work(...given);
    }, delay);
    if (delay <= 1000) timers.add(handle);
    return handle;
  };
  window.clearTimeout = (handle) => {
    timers.delete(handle);
    stop(handle);
  };
})()"""

#: Resolves when two frames in a row have passed with nothing to come: what was drawn is on the screen then.
AT_REST: Final = """(longestMs) => new Promise((resolve, reject) => {
  const { frames, timers, request } = window.toCome;
  const begun = performance.now();
  let calm = 0;
  const look = () => {
    calm = frames.size + timers.size === 0 ? calm + 1 : 0;
    if (calm === 3) resolve();
    else if (performance.now() - begun > longestMs) {
      reject(new Error(`not at rest: ${frames.size} frames and ${timers.size} timers are to come`));
    } else request(look);
  };
  request(look);
})"""

#: The longest motion takes a second or two; without a graphics card on a busy machine, many times that.
REST_MS: Final = 30_000


def watch(page: Page) -> None:
    """Count the frames and timers of whatever is loaded into a page from here on."""
    page.add_init_script(WATCH)


def at_rest(page: Page) -> None:
    """Wait until nothing moves and nothing is about to.

    Parameters
    ----------
    page : Page
        A page in which `WATCH` ran before its own scripts.

    Raises
    ------
    playwright.sync_api.Error
        It does not come to rest.
    """
    page.evaluate(AT_REST, REST_MS)
