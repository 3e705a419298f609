"""The page for everybody: WCAG 2.2 through axe, narrow and wide, and without WebGL."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bench import Bench
from chromium import LIGHT, NO_WEBGL
from demo_given import give_demo
from playwright.sync_api import Browser, Page, expect
from rest import at_rest

pytestmark = pytest.mark.browser

ROOT = Path(__file__).resolve().parents[2]
AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


#: What the theme alone can change: a second run in the other theme needs no other rules.
COLOUR_RULES = ["color-contrast", "link-in-text-block"]


def violations(
    page: Page,
    *,
    rules: list[str] | None = None,
    parts: Sequence[str] = ("html",),
    contrast: bool = True,
) -> list[str]:
    """What axe finds, one line for each node; with `rules`, by these alone, and in parts of the page.

    Each time it goes through the whole page first. Contrast takes most of what follows: a state without
    colours of its own can leave it out.
    """
    for part in parts:
        assert page.locator(part).count() > 0, part
    if not page.evaluate("'axe' in window"):
        # No script may be put into the page; the driver may run one.
        page.evaluate(f"{AXE.read_text(encoding='utf-8')};0")
    only = TAGS if rules is None else {"type": "rule", "values": rules}
    found: dict[str, Any] = page.evaluate(
        """async ([only, include, contrast]) => {
          // It sees no contrast in what is scrolled out of a part's view: meanwhile all of it is shown.
          const scrolled = contrast ? [...document.querySelectorAll(".work, .notes")] : [];
          for (const one of scrolled) one.style.overflow = "visible";
          try {
            return await axe.run({ include }, {
              runOnly: only, resultTypes: ["violations"], preload: false,
              rules: contrast ? {} : { "color-contrast": { enabled: false } } });
          } finally {
            for (const one of scrolled) one.style.overflow = "";
          }
        }""",
        [only, list(parts), contrast],
    )
    return [
        f"{one['id']}: {' '.join(node['target'])}: {node['failureSummary']}"
        for one in found["violations"]
        for node in one["nodes"]
    ]


def test_axe_finds_a_planted_fault(page: Page) -> None:
    page.set_content('<html lang="en"><title>Fault</title><main><h1>Fault</h1><img src="a.png"></main>')
    assert [line.split(":")[0] for line in violations(page)] == ["image-alt"]


#: The sizes of pages and the theme in which each is begun.
BEGUN = [(1440, 900, "light"), (390, 844, "dark")]


@pytest.fixture(scope="module", params=BEGUN, ids=lambda one: f"{one[0]}-{one[1]}")
def loading(browser: Browser, pyodide_site: str, request: pytest.FixtureRequest) -> Iterator[Page]:
    """A page of each size that waits for Python."""
    width, height, theme = request.param
    with browser.new_context(
        viewport={"width": width, "height": height}, color_scheme=theme, **LIGHT
    ) as context:
        page = context.new_page()
        # Nothing answers, so that the page stays as it is while it waits.
        page.route("**/py/**", lambda route: None)
        page.goto(pyodide_site)
        yield page


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_while_python_loads(loading: Page, theme: Any) -> None:
    loading.emulate_media(color_scheme=theme, reduced_motion="reduce")
    expect(loading.locator("#loading-progress")).to_be_visible()
    assert violations(loading, rules=COLOUR_RULES if theme == "dark" else None) == []


@pytest.fixture(scope="module")
def opened_at(browser: Browser, site: str, small_demo: bytes) -> Iterator[Callable[..., Bench]]:
    """A page of a size, begun in one theme or the other: everything open, one field refused."""
    with ExitStack() as pages:

        @cache
        def begun(width: int, height: int, theme: Any) -> Bench:
            context = browser.new_context(
                viewport={"width": width, "height": height}, color_scheme=theme, **LIGHT
            )
            give_demo(context, small_demo)
            bench = Bench(pages.enter_context(context).new_page(), site).start()
            bench.page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
            assert sideways(bench) == []
            bench.choose("Side fill", "Plain colour")
            bench.type_in("bars.depth_mm", "4")
            expect(bench.message("bars.depth_mm")).to_be_visible()
            # Half behind the list of sections, which stays in sight, a link would count as a small one.
            bench.page.locator("#work").evaluate("(one) => one.scrollTo(0, 0)")
            return bench

        yield begun


@pytest.mark.parametrize("begun", BEGUN, ids=lambda one: f"{one[0]}-{one[1]}")
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing(opened_at: Callable[..., Bench], begun: tuple[int, int, str], theme: Any) -> None:
    opened_out = opened_at(*begun)
    width, height, _ = begun
    opened_out.page.set_viewport_size({"width": width, "height": height})
    opened_out.page.emulate_media(color_scheme=theme, reduced_motion="reduce")
    opened_out.scene("Sheet")
    rules = COLOUR_RULES if theme == "dark" else None
    assert violations(opened_out.page, rules=rules) == [], "the sheet"
    # The wall differs in the stage alone.
    opened_out.scene("Wall")
    assert violations(opened_out.page, rules=rules, parts=[".stage"]) == [], "the wall"


def test_axe_sees_contrast_that_is_scrolled_out_of_view(opened_at: Callable[..., Bench]) -> None:
    page = opened_at(*BEGUN[0]).page
    width, height, _ = BEGUN[0]
    page.set_viewport_size({"width": width, "height": height})
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    faint = page.locator("#stretching h2")
    assert not faint.evaluate("one => one.getBoundingClientRect().top < innerHeight")
    faint.evaluate("one => { one.style.color = '#e8e0d0' }")
    (line,) = violations(page, rules=["color-contrast"], parts=["#stretching"])
    assert line.startswith("color-contrast: ")
    faint.evaluate("one => { one.style.color = '' }")


def sideways(bench: Bench) -> list[str]:
    """What is wider than its room: the page, the work column, or a table in it."""
    found: list[str] = bench.page.evaluate(
        """() => [
          ...[document.documentElement, document.querySelector("#work")]
            .filter((one) => one.scrollWidth > one.clientWidth)
            .map((one) => `${one.tagName} ${one.id}: ${one.scrollWidth} px in ${one.clientWidth} px`),
          ...[...document.querySelectorAll("#work table")]
            .filter((one) => one.getBoundingClientRect().right > innerWidth)
            .map((one) => `a table of ${one.closest("section").id}`)]"""
    )
    return found


#: Weights that take more than one line.
BROKEN_RANGES = """() => [...document.querySelectorAll("#order-weight td")].filter((one) => {
  const text = document.createRange();
  text.selectNodeContents(one);
  return new Set([...text.getClientRects()].map(({ top }) => Math.round(top))).size > 1;
}).map((one) => one.textContent)"""


@pytest.mark.parametrize("width", [320, 360, 390, 768, 1024, 1280, 1920])
def test_nothing_sticks_out_sideways(opened_at: Callable[..., Bench], width: int) -> None:
    """One page for all widths; the two sizes of `BEGUN` were looked at as they were begun."""
    resized = opened_at(*BEGUN[0])
    resized.page.set_viewport_size({"width": width, "height": 800})
    at_rest(resized.page)
    assert resized.page.evaluate("innerWidth") == width
    assert sideways(resized) == []
    assert resized.page.evaluate(BROKEN_RANGES) == []


def test_nothing_sticks_out_of_a_phone_with_letters_twice_as_large(opened_at: Callable[..., Bench]) -> None:
    page = (resized := opened_at(*BEGUN[0])).page
    page.set_viewport_size({"width": 390, "height": 844})
    settings = page.context.new_cdp_session(page)
    settings.send("Page.setFontSizes", {"fontSizes": {"standard": 32}})
    expect(page.locator("html")).to_have_css("font-size", "32px")
    at_rest(page)
    assert sideways(resized) == []
    name, link = (page.locator(f".{one}").bounding_box() for one in ("page-header-name", "guide-link"))
    assert name is not None
    assert link is not None
    assert link["y"] >= name["y"] + name["height"]
    settings.send("Page.setFontSizes", {"fontSizes": {"standard": 16}})
    settings.detach()


def test_on_paper_nothing_is_cut_off_and_all_is_dark_on_white(opened_at: Callable[..., Bench]) -> None:
    page = opened_at(*BEGUN[0]).page
    page.set_viewport_size({"width": 1280, "height": 800})
    page.evaluate("document.documentElement.dataset.theme = 'dark'")
    # Paper on its side is as wide as a window in which the sections scroll beside the stage.
    paper = page.pdf(format="A4", landscape=True, prefer_css_page_size=True)
    # Derived: eleven sections with all that can be opened open; the first sheet alone would be one page.
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) > 11
    expect(page.locator(".stage-picture")).to_have_attribute("style", re.compile(r"--on-paper: 0\."))
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(0, 0, 0)"
    expect(page.locator("#section-list")).to_be_hidden()
    page.emulate_media(media="null")
    page.evaluate("document.documentElement.dataset.theme = 'light'")


#: The buttons whose next words below begin less than 4 px under them.
TOUCHED = """() => [...document.querySelectorAll("#work button")].filter((button) => {
  if (!button.checkVisibility()) return false;
  const above = button.getBoundingClientRect();
  return [...document.querySelectorAll("#work p:not(.visually-hidden, .section-skips)")].some((words) => {
    const below = words.getBoundingClientRect();
    const gap = below.top - above.bottom;
    const isUnder = below.left < above.right && below.right > above.left && below.height > 0;
    return words.checkVisibility() && isUnder && gap > -2 && gap < 4;
  });
}).map((button) => button.textContent)"""


def test_no_words_touch_the_button_above_them(opened_at: Callable[..., Bench]) -> None:
    page = opened_at(*BEGUN[0]).page
    page.set_viewport_size({"width": 1280, "height": 800})
    assert page.evaluate(TOUCHED) == []


def test_more_contrast_makes_soft_words_plain(opened_at: Callable[..., Bench]) -> None:
    page = opened_at(*BEGUN[0]).page
    aside, body = (
        "getComputedStyle(document.querySelector('.aside')).color",
        "getComputedStyle(document.body).color",
    )
    for theme in ("light", "dark"):
        page.emulate_media(color_scheme=theme, contrast="no-preference")
        assert page.evaluate(aside) != page.evaluate(body)
        page.emulate_media(color_scheme=theme, contrast="more")
        assert page.evaluate(aside) == page.evaluate(body)
    page.emulate_media(contrast="no-preference")


def test_without_webgl_the_sheet_and_the_files_still_work(bench: Bench, tmp_path: Path) -> None:
    bench.page.add_init_script(NO_WEBGL)
    bench.start()
    expect(bench.page.locator(".no-wall")).to_contain_text("cannot draw the wall")
    expect(bench.page.locator(".flat-texture")).to_be_visible()
    expect(bench.page.locator("#scene")).to_have_count(0)
    bench.set("bars.depth_mm", "22")
    bench.set("print.ppi", "100")
    assert bench.write_file("JPEG", tmp_path).stat().st_size > 10_000


def test_the_page_paints_before_python_is_there(page: Page, pyodide_site: str, complaints: list[str]) -> None:
    page.route("**/py/**", lambda route: route.abort())
    page.goto(pyodide_site)
    expect(page.locator(".preview-picture")).to_be_visible()
    drawn = page.locator(".preview-picture").evaluate("one => one.naturalWidth > 300")
    assert drawn
    # Without its runtime the page says that it cannot begin, and why.
    expect(page.locator(".loading .error-text")).to_contain_text("could not start", timeout=30_000)
    complaints.clear()
