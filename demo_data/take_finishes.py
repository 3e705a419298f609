"""Take the contact sheets of the three finishes that README.md shows, in Chromium, of the demo.

Run it after a change of the stage, with the built site served somewhere:

    python3 web/serve.py --port 8137
    python3 demo_data/take_finishes.py http://127.0.0.1:8137/

It writes `pictures/finish-<name>.webp` beside itself, or into `--folder`: front, side, corner, back and
unfolded, row by row; with `--only lapped` that finish alone, and with `--quickly` from a small stage.
"""

from __future__ import annotations

import argparse
import io
from collections.abc import Iterator, Sequence
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright
from take_pictures import PICTURES, at_rest, opened, started

FINISHES = ("Tucked", "Lapped", "Trimmed")
VIEWS = ("Front", "Side", "Corner", "Back")

#: A picture on a sheet, how many stand beside one another, and the room between two.
CELL_PX, COLUMNS, GAP_PX = 480, 3, 8

PAPER = (250, 247, 240)

#: The most that a sheet may weigh, and the qualities that are tried for it.
MOST_BYTES, QUALITIES = 120_000, (82, 74, 66, 58, 50, 42)


def pictures_of(page: Page, finish: str) -> Iterator[Image.Image]:
    """The stage with a finish from every view, then unfolded.

    Parameters
    ----------
    page : Page
        With the demo on its wall.
    finish : str
        As the page calls it.

    Yields
    ------
    PIL.Image.Image
    """
    page.locator('[data-field="wrap.finish"]').get_by_label(finish, exact=True).check()
    page.locator("html[data-state=shown]").wait_for()
    for view in VIEWS:
        page.locator("#view").get_by_label(view, exact=True).click()
        yield picture_of(page)
    page.locator("#view").get_by_label("Front", exact=True).click()
    page.locator("#fold").fill("0")
    yield picture_of(page)
    page.locator("#fold").fill("1")


def picture_of(page: Page) -> Image.Image:
    """The stage alone, once nothing moves."""
    return Image.open(io.BytesIO(at_rest(page, ".stage-picture"))).convert("RGB")


def contact_sheet(pictures: Sequence[Image.Image]) -> Image.Image:
    """The pictures in rows.

    Examples
    --------
    >>> contact_sheet([Image.new("RGB", (960, 640))] * 5).size
    (1456, 648)
    """
    height = round(CELL_PX * pictures[0].height / pictures[0].width)
    rows = -(-len(pictures) // COLUMNS)
    size = (
        COLUMNS * CELL_PX + (COLUMNS - 1) * GAP_PX,
        rows * height + (rows - 1) * GAP_PX,
    )
    sheet = Image.new("RGB", size, PAPER)
    for place, picture in enumerate(pictures):
        corner = (place % COLUMNS * (CELL_PX + GAP_PX), place // COLUMNS * (height + GAP_PX))
        sheet.paste(picture.resize((CELL_PX, height), Image.Resampling.LANCZOS), corner)
    return sheet


def write(sheet: Image.Image, target: Path) -> None:
    """Write a sheet in the best quality that is small enough."""
    for quality in QUALITIES:
        sheet.save(target, "WEBP", quality=quality, method=6)
        if target.stat().st_size <= MOST_BYTES:
            print(f"{target.name}: {target.stat().st_size / 1000:.0f} kB, quality {quality}")
            return
    raise ValueError(f"{target.name} is larger than {MOST_BYTES} bytes at every quality")


def main() -> None:
    """Take what the command line says: all, or one of them."""
    parser = argparse.ArgumentParser(description="Take the contact sheets of the finishes.")
    parser.add_argument("address", help="of the served site, for example http://127.0.0.1:8137/")
    parser.add_argument("--folder", type=Path, default=PICTURES)
    parser.add_argument("--only", choices=[finish.lower() for finish in FINISHES])
    parser.add_argument("--quickly", action="store_true", help="small, to see that all of it runs")
    given = parser.parse_args()
    given.folder.mkdir(exist_ok=True)
    with sync_playwright() as playwright:
        browser = started(playwright, quickly=given.quickly)
        page = opened(browser, given.address, 1440, 900, quickly=given.quickly)
        for finish in FINISHES:
            if given.only in (None, finish.lower()):
                sheet = contact_sheet(list(pictures_of(page, finish)))
                write(sheet, given.folder / f"finish-{finish.lower()}.webp")
        browser.close()


if __name__ == "__main__":
    main()
