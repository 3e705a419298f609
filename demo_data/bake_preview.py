"""Bake the pictures that the page shows before Python is there: the demo on the wall, as the stage draws it.

Run it after a change of the stage or of the demo, with the built site served somewhere:

    python3 web/serve.py --port 8137
    python3 demo_data/bake_preview.py http://127.0.0.1:8137/

It needs Playwright and Chromium, and writes `preview_<theme>_<size>.webp` beside itself, or into `--folder`;
with `--only light_phone` that one alone, and with `--quickly` small ones.
"""

from __future__ import annotations

import argparse
import io
from pathlib import Path
from typing import Literal

from PIL import Image
from playwright.sync_api import Browser, sync_playwright
from take_pictures import SMALL, give_small_demo, started

HERE = Path(__file__).parent
#: Width and height of the window, and how many pixels each of its own has.
SIZES = {"desk": (1440, 900, 1.25), "phone": (390, 844, 2.0)}
THEMES: tuple[Literal["light"], Literal["dark"]] = ("light", "dark")
QUALITY = 74


def bake(
    browser: Browser, address: str, theme: Literal["light", "dark"], size: str, *, quickly: bool
) -> bytes:
    """The wall of the demo as WebP.

    Parameters
    ----------
    browser : Browser
        A started browser.
    address : str
        Where the built site is served.
    theme : str
        light or dark.
    size : str
        A key of `SIZES`.
    quickly : bool
        Whether it may be small, and the demo's picture too.

    Returns
    -------
    bytes
    """
    width, height, ratio = SIZES[size]
    context = browser.new_context(
        viewport={"width": width, "height": height},
        device_scale_factor=SMALL if quickly else ratio,
        color_scheme=theme,
        reduced_motion="reduce",
    )
    if quickly:
        give_small_demo(context)
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector("html[data-state=shown]", timeout=120_000)
    wall = page.locator(".wall-host")
    page.wait_for_timeout(1500)  # A renderer without a graphics card takes a while for the soft shadow.
    picture = Image.open(io.BytesIO(wall.screenshot()))
    context.close()
    written = io.BytesIO()
    picture.convert("RGB").save(written, "WEBP", quality=QUALITY, method=6)
    return written.getvalue()


def main() -> None:
    """Bake what the command line says: every theme and size, or one of them."""
    names = {f"{theme}_{size}": (theme, size) for theme in THEMES for size in SIZES}
    parser = argparse.ArgumentParser(description="Bake the pictures that stand for the wall at first.")
    parser.add_argument("address", help="of the served site, for example http://127.0.0.1:8137/")
    parser.add_argument("--folder", type=Path, default=HERE)
    parser.add_argument("--only", choices=names)
    parser.add_argument("--quickly", action="store_true", help="small, to see that all of it runs")
    given = parser.parse_args()
    with sync_playwright() as playwright:
        browser = started(playwright, quickly=given.quickly)
        for name in [given.only] if given.only else names:
            target = given.folder / f"preview_{name}.webp"
            target.write_bytes(bake(browser, given.address, *names[name], quickly=given.quickly))
            print(f"{target.name}: {target.stat().st_size / 1000:.0f} kB")
        browser.close()


if __name__ == "__main__":
    main()
