"""Own sheets and bars on the page: saved, used, kept over a reload, shared as a file, refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bench import TAKE_TEXT, Bench
from playwright.sync_api import FilePayload, Page, expect

from pycore.contract.presets_check import check_presets

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True


def open_parts(page: Page) -> None:
    """Open the closed parts that hold own sizes."""
    for name in ("Your own sheets", "All your own sizes in one file", "Your own bars"):
        page.locator(".more > summary", has_text=name).click()


def given(name: str, text: str) -> FilePayload:
    return {"name": name, "mimeType": "application/json", "buffer": text.encode()}


def test_own_sizes_are_saved_used_kept_and_shared(bench: Bench, tmp_path: Path) -> None:
    page = bench.start().page
    bench.set("sheet.width_mm", "420")
    bench.set("sheet.height_mm", "594")
    bench.set("bars.depth_mm", "38")
    open_parts(page)
    own = page.locator('[data-own="sheet"]')
    own.get_by_label("Name").fill("Matte A2")
    own.get_by_label("Price of a square metre").fill("-1")
    own.get_by_role("button", name="Save this sheet").click()
    expect(own.locator(".error-text")).to_contain_text(
        "The price of a square metre of the sheet 'Matte A2' must be 0 to 1000000; you gave -1"
    )
    own.get_by_label("Price of a square metre").fill("24")
    own.get_by_role("button", name="Save this sheet").click()
    expect(own.locator(".error-text")).to_have_count(0)
    expect(own.get_by_label("Your own sheets", exact=True)).to_have_value("Matte A2")
    bars = page.locator('[data-own="bars"]')
    bars.get_by_label("Name").fill("Deep")
    bars.get_by_role("button", name="Save these bars").click()
    expect(bars.get_by_role("button", name="Use it: Deep")).to_be_visible()

    page.evaluate(TAKE_TEXT)
    page.get_by_role("button", name="Save your own sizes").click()
    read = check_presets(page.evaluate("window.savedText"))
    assert [(one.name, one.height_mm, one.price_per_m2) for one in read.sheets] == [("Matte A2", 594, 24)]
    assert [(one.name, one.depth_mm) for one in read.bars] == [("Deep", 38)]

    shared = given("shop.json", (Path(__file__).parents[2] / "demo_data" / "shop.json").read_text())
    entry = page.locator('input[data-open="open-own-sizes"]')
    entry.set_input_files(shared)
    expect(page.locator(".status-announcement")).to_contain_text(
        "shop.json was opened: 4 entries are new; 1 entry"
    )
    entry.set_input_files(given("other.json", json.dumps({"version": 2})))
    expect(page.locator("#sheet .error-text")).to_contain_text(
        "The version of the presets must be 1; you gave 2"
    )

    page.reload()
    bench.wait_shown()
    open_parts(page)
    expect(page.get_by_label("Your own bars", exact=True)).to_be_visible()
    page.get_by_label("Your own bars", exact=True).select_option("Pine 20")
    page.get_by_role("button", name="Use it: Pine 20").click()
    expect(bench.field("bars.depth_mm")).to_have_value("20")
    bench.settled()
    job = json.loads(bench.save_job(tmp_path).read_text())
    assert (job["bars"]["width_mm"], job["bars"]["wood"]) == (38, "pine")
    page.get_by_role("button", name="Delete it: Pine 20").click()
    expect(page.get_by_label("Your own bars", exact=True).locator("option")).to_have_text(["Deep", "Pine 38"])
