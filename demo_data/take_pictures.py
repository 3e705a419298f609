"""Take the pictures of the page that README.md shows, in Chromium, of the demo.

Run it after a change of the page, with the built site served somewhere:

    python3 web/serve.py --port 8137
    python3 demo_data/take_pictures.py http://127.0.0.1:8137/

It needs Playwright and Chromium, and writes `pictures/<name>.webp` beside itself, or into `--folder`; with
`--only wide`, `narrow` or `dark` those of one window. With `--quickly` they are small and drawn as the tests
draw, to see that all of it runs.
"""

from __future__ import annotations

import argparse
import io
import shutil
import sys
from pathlib import Path
from typing import Final

from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

sys.path.append(str(Path(__file__).resolve().parents[1] / "tests" / "browser"))

from chromium import launch_options
from demo_given import give_demo, reduced_demo

PICTURES = Path(__file__).parent / "pictures"
QUALITY = 80

#: Pixels of a picture for each of the window's, with `--quickly`.
SMALL: Final = 0.25


def started(playwright: Playwright, *, quickly: bool) -> Browser:
    """Chromium without a window, which draws without a graphics card.

    Parameters
    ----------
    playwright : Playwright
    quickly : bool
        Whether it draws as in the tests, with less smooth edges, or all that it can.

    Returns
    -------
    Browser
    """
    if quickly:
        return playwright.chromium.launch(**launch_options())
    return playwright.chromium.launch(
        executable_path=shutil.which("chromium-headless-shell") or shutil.which("chromium"),
        args=["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"],
    )


def opened(
    browser: Browser, address: str, width: int, height: int, *, quickly: bool, theme: str = "light"
) -> Page:
    """A fresh page with the demo on its wall.

    Parameters
    ----------
    browser : Browser
        A started browser.
    address : str
        Where the built site is served.
    width, height : int
        Of the window, in pixels.
    quickly : bool
        Whether its pictures are small, that of the demo too.
    theme : str
        light or dark.

    Returns
    -------
    Page
    """
    page = browser.new_page(
        viewport={"width": width, "height": height},
        device_scale_factor=SMALL if quickly else 1,
        color_scheme="dark" if theme == "dark" else "light",
        reduced_motion="reduce",
    )
    if quickly:
        give_small_demo(page.context)
    page.goto(address)
    page.wait_for_selector("html[data-state=shown]", timeout=120_000)
    # The margin says what to look at once the sides have been judged.
    page.wait_for_selector("#edges-says", state="attached", timeout=120_000)
    at_rest(page)
    return page


def give_small_demo(context: BrowserContext) -> None:
    """Let the pages of a context get a small copy of the demo's picture, as the tests do."""
    give_demo(context, reduced_demo())


def at_rest(page: Page, part: str | None = None) -> bytes:
    """Wait until two pictures of a part of the window, half a second apart, are the same.

    Parameters
    ----------
    page : Page
    part : str, optional
        A selector; the whole window by default.

    Returns
    -------
    bytes
        That picture, a PNG file.

    Raises
    ------
    TimeoutError
        After twenty seconds they still differ.
    """
    before = b""
    for _ in range(40):
        now = page.screenshot() if part is None else page.locator(part).screenshot()
        if now == before:
            return now
        before = now
        page.wait_for_timeout(500)
    raise TimeoutError("the page did not come to rest within twenty seconds")


def choose(page: Page, group: str, value: str) -> None:
    """Choose an option by its value, which stays when its word changes."""
    page.locator(f'input[name="{group}"][value="{value}"]').check(force=True)


def at_section(page: Page, name: str) -> None:
    """Bring a section of the work column to the column's top."""
    page.locator(f"#{name}").evaluate("one => one.scrollIntoView({ block: 'start' })")


#: Whether no picture of a choice that is in the window is still to be drawn.
DRAWN = """() => [...document.querySelectorAll(".picture-wait")].every((one) => {
  const { top, bottom } = one.getBoundingClientRect();
  return bottom <= 0 || top >= innerHeight;
})"""


def take(page: Page, name: str, folder: Path) -> None:
    """Write what the window shows."""
    page.wait_for_function(DRAWN, timeout=60_000)
    shown = at_rest(page)
    target = folder / f"{name}.webp"
    Image.open(io.BytesIO(shown)).save(target, "WEBP", quality=QUALITY, method=6)
    print(f"{target.name}: {target.stat().st_size / 1000:.0f} kB")


def take_wide(browser: Browser, address: str, folder: Path, *, quickly: bool) -> None:
    """Take the pictures of one wide window: as it starts, unfolding, the sheet, and some sections."""
    page = opened(browser, address, 1440, 900, quickly=quickly)
    take(page, "page-1440", folder)
    page.locator("#fold").fill("0.55")
    take(page, "unfolding", folder)
    page.locator("#fold").fill("1")
    choose(page, "scene", "sheet")
    take(page, "sheet", folder)
    choose(page, "scene", "wall")
    choose(page, "colour-view", "clip")
    at_section(page, "colour")
    take(page, "clip-map", folder)
    choose(page, "colour-view", "filed")
    for section in ("sides", "print"):
        at_section(page, section)
        take(page, section, folder)
    at_section(page, "surroundings")
    choose(page, "view", "front")
    choose(page, "beside", "chair")
    take(page, "room", folder)
    page.close()


def main() -> None:
    """Take them all."""
    parser = argparse.ArgumentParser(description="Take the pictures of the page.")
    parser.add_argument("address", help="of the served site, for example http://127.0.0.1:8137/")
    parser.add_argument("--folder", type=Path, default=PICTURES)
    parser.add_argument("--only", choices=("wide", "narrow", "dark"))
    parser.add_argument("--quickly", action="store_true", help="small, to see that all of it runs")
    given = parser.parse_args()
    address, folder, quickly = given.address, given.folder, given.quickly
    folder.mkdir(exist_ok=True)
    with sync_playwright() as playwright:
        browser = started(playwright, quickly=quickly)
        if given.only in (None, "wide"):
            take_wide(browser, address, folder, quickly=quickly)
        if given.only in (None, "narrow"):
            take(opened(browser, address, 390, 844, quickly=quickly), "page-390", folder)
        if given.only in (None, "dark"):
            dark = opened(browser, address, 1440, 900, quickly=quickly, theme="dark")
            take(dark, "page-dark", folder)
        browser.close()


if __name__ == "__main__":
    main()
