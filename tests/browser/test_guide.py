"""The guide in a browser: found from the page, clean through axe, narrow, wide, light, dark, on paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from bench import Bench
from conftest import watched_page
from playwright.sync_api import Browser, Page, expect
from test_access import COLOUR_RULES, violations

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True


def loaded(page: Page, address: str) -> Page:
    """The guide with every drawing fetched."""
    page.goto(address)
    page.evaluate("document.querySelectorAll('img').forEach(one => { one.loading = 'eager' })")
    page.wait_for_function("() => [...document.images].every(one => one.complete)")
    return page


@pytest.fixture(scope="module")
def heard() -> list[str]:
    """What the page with the guide complained of, and what it asked other machines for."""
    return []


@pytest.fixture(scope="module")
def guide(browser: Browser, site: str, heard: list[str]) -> Iterator[Page]:
    """One page with the guide, whose window and theme the tests change."""
    with watched_page(browser, heard, None) as page:
        yield loaded(page, f"{site}guide.html")


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing(guide: Page, theme: Any, width: int, height: int) -> None:
    guide.set_viewport_size({"width": width, "height": height})
    guide.emulate_media(color_scheme=theme)
    assert violations(guide, rules=COLOUR_RULES if theme == "dark" else None) == []
    assert guide.evaluate("[...document.images].filter(one => one.naturalWidth === 0).length") == 0


@pytest.mark.parametrize("width", [360, 390, 768, 1024, 1280, 1920])
def test_nothing_sticks_out_sideways(guide: Page, width: int) -> None:
    guide.set_viewport_size({"width": width, "height": 800})
    assert guide.evaluate("document.documentElement.scrollWidth") <= width


def test_it_asks_no_other_machine(guide: Page, heard: list[str]) -> None:
    expect(guide.locator("h1")).to_have_text("Guide")
    assert heard == []


def test_a_word_on_the_page_opens_its_entry(bench: Bench) -> None:
    bench.start()
    # The label keeps its own name, and the word in it is a link.
    expect(bench.field("bars.depth_mm")).to_have_accessible_name(re.compile("^Bar depth"))
    with bench.page.context.expect_page() as opened:
        bench.page.get_by_role("link", name="Bar depth", exact=True).click()
    guide = opened.value
    guide.wait_for_load_state()
    assert guide.url.endswith("/guide.html#bar-depth")
    expect(guide.locator("#bar-depth dt")).to_be_in_viewport()


def test_the_header_leads_to_the_guide(page: Page, pyodide_site: str, complaints: list[str]) -> None:
    page.route("**/py/**", lambda route: route.abort())
    page.goto(pyodide_site)
    expect(page.locator(".guide-link a")).to_be_visible()
    with page.context.expect_page() as opened:
        page.get_by_role("link", name="Guide", exact=True).click()
    assert opened.value.url.endswith("/guide.html")
    complaints.clear()


def test_it_takes_the_theme_of_the_page(page: Page, site: str) -> None:
    page.goto(f"{site}guide.html")
    light = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.evaluate("localStorage.setItem('tuckfold-theme', 'dark')")
    page.reload()
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") != light


def test_on_paper_it_is_dark_on_white(guide: Page) -> None:
    guide.emulate_media(media="print", color_scheme="dark")
    assert guide.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    expect(guide.locator("nav")).to_be_hidden()
