"""What hangs on the wall while the core starts: the demo as it came, or the job as it was last shown."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import numpy.typing as npt
from bench import CHANGE_MS, Bench
from PIL import Image
from playwright.sync_api import Page, Route, expect
from rest import at_rest

#: The way to the core; while it is closed the core never comes.
CORE = "**/native-core/*"
COARSE_PX = (64, 64)
#: Two views that show the same differ by less, on average; two pictures here by 17 (regression).
LIKE = 3


class HeldBack:
    """The core on a connection that waits, until it may come."""

    def __init__(self, page: Page) -> None:
        self._page = page
        held: list[Route] = []
        page.route(CORE, lambda route: held.append(route))

    def come(self) -> None:
        # What is held is let go by this too.
        self._page.unroute(CORE)


def wall(page: Page) -> npt.NDArray[np.float64]:
    """The 3D view at rest, from 0 to 255; coarse, as the controls change its height by a pixel or two."""
    at_rest(page)
    shot = page.locator(".wall-host canvas").screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB").resize(COARSE_PX), float)


def expect_view_alone(page: Page) -> None:
    """A canvas is drawn, and the core has not come."""
    page.wait_for_selector("html[data-view=drawn]", timeout=CHANGE_MS)
    assert page.get_attribute("html", "data-state") is None
    expect(page.locator(".loading progress")).to_be_visible()


def test_the_wall_shows_what_the_core_will_show(bench: Bench, china: Path) -> None:
    page, core = bench.page, HeldBack(bench.page)
    page.goto(bench.address)
    expect_view_alone(page)
    demo = wall(page)
    core.come()
    bench.wait_shown()
    # JPEG errs by a level or two, and the height of the view by a pixel.
    assert np.abs(wall(page) - demo).mean() < LIKE
    bench.open_picture(china)
    bench.opened(china.name)
    bench.kept("parts.some(({ role }) => role === 'view')")
    own = wall(page)
    assert np.abs(own - demo).mean() > 3 * LIKE

    core = HeldBack(page)
    page.reload()
    expect_view_alone(page)
    assert np.abs(wall(page) - own).mean() < LIKE
    core.come()
    bench.wait_shown()
    assert np.abs(wall(page) - own).mean() < LIKE
