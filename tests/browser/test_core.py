"""The core in a real browser: it starts from the page's own folder, wherever that is served."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

SHOWN = "document.documentElement.dataset.state === 'shown'"


def test_the_page_starts_python_from_its_own_folder(page: Page, site: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(site)
    page.wait_for_function(SHOWN, timeout=60_000)
    wheels = [address for address in asked if address.endswith(".whl")]
    # derived: eight packages, see web/pins.json: six carried, tifffile, and the core.
    assert len(wheels) == 8
    assert all(address.startswith(f"{site}py/") for address in wheels)
    expect(page).to_have_title(re.compile("Tuckfold"))
