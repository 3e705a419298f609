"""The core in a real browser: it starts from the page's own folder, wherever that is served."""

from __future__ import annotations

import re
from pathlib import Path

from bench import Bench
from build.size_table import first_visit_files
from chromium import NO_WEBGL
from playwright.sync_api import Page, expect

DIST = Path(__file__).resolve().parents[2] / "web" / "dist"
SHOWN = "() => document.documentElement.dataset.state === 'shown'"

#: Its subject is Pyodide in a browser.
IN_PYODIDE = True


def test_the_page_starts_python_from_its_own_folder(page: Page, site: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.removeprefix(site)))
    page.goto(site)
    page.wait_for_function(SHOWN, timeout=60_000)
    expect(page).to_have_title(re.compile("Tuckfold"))
    # derived: six libraries (web/build/snapshot.py), the memory, the pack, Python's library, the demo's view.
    assert sum(address.startswith("py/snapshot/") for address in asked) == 10
    assert not [address for address in asked if address.endswith((".whl", ".zip"))]
    # The table of sizes names all that was asked for, and nothing else; not every browser wants an icon.
    named = {one.relative_to(DIST).as_posix() for one in first_visit_files(DIST)}
    icons = {"icon.svg", "manifest.webmanifest"}
    assert {address or "index.html" for address in asked} - icons == named - icons


def test_a_start_that_fails_ends_in_a_sentence_and_a_plain_one_takes_the_wheels(
    page: Page, site: str, complaints: list[str]
) -> None:
    """The plain start is the other try. That any start ends in the sentence, test_access.py asks."""
    bench = Bench(page, site)
    # The other start draws.
    page.add_init_script(NO_WEBGL)
    page.route("**/pyodide.asm-*.wasm*", lambda route: route.fulfill(status=404, body="gone"))
    page.goto(f"{site}?start=plain")
    expect(page.locator(".loading .error-text")).to_contain_text("The page could not start", timeout=60_000)
    expect(page.locator("#loading-progress")).to_have_count(0)
    # The browser complains of the file that it was refused.
    complaints.clear()
    page.unroute("**/pyodide.asm-*.wasm*")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.removeprefix(site)))
    bench.button("Try again").click()
    bench.wait_shown()
    # derived: eight packages, see web/pins.json: six carried, tifffile, and the core.
    assert sum(address.endswith(".whl") for address in asked) == 8
    # The demo's canvas is the page's, which does not wait for Python.
    taken = [address for address in asked if "snapshot" in address]
    assert [one for one in taken if not one.startswith("py/snapshot/demo_view-")] == []
    bench.set("bars.depth_mm", "27")
