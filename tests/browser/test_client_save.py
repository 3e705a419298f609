"""Saving the client's page from the bench: what comes out opens by itself and says what was meant."""

from __future__ import annotations

from pathlib import Path

import pytest
from bench import WRITE_MS, Bench
from chromium import LIGHT
from playwright.sync_api import Browser, expect

from pycore.client.recheck import check_client_page

pytestmark = pytest.mark.browser

#: The 3D view of the page itself has no part in it.
WITHOUT_WALL = True

#: Keeps the bytes of the next file that the page makes.
TAKE_FILE = """() => {
  const make = URL.createObjectURL;
  window.savedFile = new Promise((resolve) => {
    URL.createObjectURL = (blob) => {
      URL.createObjectURL = make;
      blob.text().then(resolve);
      return make.call(URL, blob);
    };
  });
}"""


@pytest.fixture(scope="module")
def bench(module_bench: Bench) -> Bench:
    """One page for all tests, with the demo."""
    return module_bench.start()


def test_the_page_is_made_checked_and_opens_by_itself(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    page = bench.page
    page.evaluate(TAKE_FILE)
    page.get_by_label("A few words to the client").fill("See the sides.")
    with page.expect_download(timeout=WRITE_MS) as saved:
        page.get_by_role("button", name="Save the client page").click()
    report = page.locator("#client-report")
    expect(report).to_contain_text("was saved, opened again and checked", timeout=WRITE_MS)
    expect(report).to_contain_text("loads nothing from elsewhere")
    name = saved.value.suggested_filename
    assert name.endswith("-client.html")
    expect(report.locator("strong")).to_have_text(name)

    data = page.evaluate("window.savedFile").encode()
    assert check_client_page(data, file=name, variants=1).bytes == len(data)
    # The demo's notes and the name of its picture are the photographer's own.
    for private in (b"Hangs at the end of a hall", b"estuary"):
        assert private not in data
    path = tmp_path / name
    path.write_bytes(data)
    with browser.new_context(**LIGHT) as context:
        context.set_offline(True)
        client = context.new_page()
        client.goto(path.as_uri())
        client.wait_for_selector("html[data-state=hung]", timeout=WRITE_MS)
        expect(client.locator(".message")).to_have_text("See the sides.")
        expect(client.locator(".choice")).to_have_count(1)


def test_it_can_be_stopped(bench: Bench) -> None:
    page = bench.page
    page.get_by_role("button", name="Save the client page").click()
    page.locator("#client-page").get_by_role("button", name="Stop").click()
    expect(page.locator("#client-page")).to_contain_text("Stopped; no page was saved.", timeout=WRITE_MS)
    expect(page.locator("#client-report")).to_have_count(0)


def test_the_variants_side_by_side_are_offered(bench: Bench) -> None:
    page = bench.page
    """They are, and a page is made after one was stopped."""
    expect(page.locator("#client-offered")).to_have_count(0)
    page.locator("#compare").get_by_role("button", name="Compare depths").click()
    expect(page.locator("#client-offered")).to_be_visible(timeout=WRITE_MS)
    offered = page.locator("#client-offered")
    # Whoever compares need not choose them again, but may choose the job's canvas alone.
    expect(offered.get_by_label("The variants side by side")).to_be_checked()
    offered.get_by_label("This canvas").check()
    expect(page.locator("#client-page")).not_to_contain_text("The client chooses one of")
    offered.get_by_label("The variants side by side").check()
    expect(page.locator("#client-page")).to_contain_text("The client chooses one of 3.")
    page.evaluate(TAKE_FILE)
    page.get_by_role("button", name="Save the client page").click()
    expect(page.locator("#client-report")).to_contain_text("3 to choose from", timeout=WRITE_MS)
    data = page.evaluate("window.savedFile").encode()
    assert check_client_page(data, file="a.html", variants=3).variants == 3
    for depth in (18, 38, 50):
        assert f"</b> <bdi>{depth}\N{NO-BREAK SPACE}mm</bdi>".encode() in data
