"""The page in German: chosen by the browser or by hand, no English sentence left, and nothing cut."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from chromium import LIGHT
from demo_given import give_demo
from playwright.sync_api import Browser, Page, expect

ROOT = Path(__file__).resolve().parents[2]
GERMAN: dict[str, str] = json.loads((ROOT / "pycore/speech/data/de.json").read_text(encoding="utf-8"))

#: Every text of the page and every text that is read aloud, with all that can be opened open.
TEXTS = """() => {
  for (const one of document.querySelectorAll("details")) one.open = true;
  const texts = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) texts.push(walk.currentNode.textContent.trim());
  for (const one of document.querySelectorAll("*"))
    for (const name of ["aria-label", "title", "alt", "placeholder", "aria-valuetext"])
      if (one.hasAttribute(name)) texts.push(one.getAttribute(name));
  return texts;
}"""

#: Elements with a text of their own that reach beyond the window, their section or a picture's frame, or are
#: narrower than it; and lists to type in that do not show all. A name or a note may be longer than its line.
CUT = """() => [...document.querySelectorAll("body *")].filter((one) => {
  const style = getComputedStyle(one);
  const box = one.getBoundingClientRect();
  if (box.width < 2 || style.visibility === "hidden" || one.closest(".visually-hidden, .skip, svg"))
    return false;
  if (one.matches("input[type=text]"))
    return one.scrollWidth > one.clientWidth && !one.closest(".entry-wide");
  const own = [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim() !== "");
  if (!own) return false;
  const clips = style.display !== "inline" && style.overflowX !== "visible";
  const hidden = clips && one.scrollWidth > one.clientWidth + 1;
  const frame = one.closest(".picture-option, #work > section")?.getBoundingClientRect();
  if (frame !== undefined && style.position !== "absolute" && box.right > frame.right + 1) return true;
  return hidden || box.right > innerWidth + 1 || box.left < -1;
}).map((one) => (one.value ?? one.textContent).slice(0, 60))"""


@pytest.fixture(scope="module")
def german(browser: Browser, site: str, small_demo: bytes) -> Iterator[Page]:
    """The page in a browser that wants German."""
    context = browser.new_context(locale="de-DE", viewport={"width": 1440, "height": 900}, **LIGHT)
    give_demo(context, small_demo)
    page = context.new_page()
    page.goto(site)
    expect(page.locator("#sides")).to_be_attached(timeout=60_000)
    expect(page.locator("html")).to_have_attribute("data-colour", "known", timeout=60_000)
    yield page
    context.close()


def test_no_english_sentence_is_left(german: Page) -> None:
    expect(german.locator("html")).to_have_attribute("lang", "de")
    texts: list[str] = german.evaluate(TEXTS)
    # Regression: far fewer would mean that the page was not there.
    assert len(texts) > 300
    assert sorted({text for text in texts if text in GERMAN and text not in GERMAN.values()}) == []
    begun = {"The ", "This ", "Each ", "No ", "Open ", "Save ", "Your "}
    own: Any = ("The Ebbing Field",)
    assert [one for one in texts if one[: one.find(" ") + 1] in begun and not one.startswith(own)] == []


def test_nothing_is_cut(german: Page) -> None:
    def cut_at(width: int) -> list[str]:
        german.set_viewport_size({"width": width, "height": 900})
        assert german.evaluate("document.documentElement.scrollWidth") <= width
        found: list[str] = german.evaluate(CUT)
        return found

    widths = (1440, 390)
    assert {width: cut_at(width) for width in widths} == {width: [] for width in widths}
    german.locator("#start-depths").click()
    expect(german.locator("#compare-figures")).to_be_visible(timeout=60_000)
    assert {width: cut_at(width) for width in widths} == {width: [] for width in widths}
    german.locator("#compare-figures > button").click()


def test_letters_set_wide_leave_the_head_whole(german: Page) -> None:
    """The spacing of WCAG 1.4.12, where words are longest."""
    german.evaluate(
        """() => {
          const wide = new CSSStyleSheet();
          wide.replaceSync("* { letter-spacing: 0.12em !important; word-spacing: 0.16em !important; " +
            "line-height: 1.5 !important }");
          document.adoptedStyleSheets = [wide];
        }"""
    )
    german.set_viewport_size({"width": 1280, "height": 800})
    # The column beside the head would hide what is longer.
    outside = """(head) => [...head.querySelectorAll("button, a")].filter(
      (one) => one.getBoundingClientRect().right > head.getBoundingClientRect().right).length"""
    assert german.locator(".page-header").evaluate(outside) == 0
    german.set_viewport_size({"width": 390, "height": 844})
    name, link = (german.locator(f".{one}").bounding_box() for one in ("page-header-name", "guide-link"))
    assert name is not None
    assert link is not None
    beside = link["x"] >= name["x"] + name["width"]
    assert beside or link["y"] >= name["y"] + name["height"]
    german.evaluate("document.adoptedStyleSheets = []")


def test_the_stage_has_its_room_on_small_screens(german: Page) -> None:
    german.set_viewport_size({"width": 900, "height": 700})
    picture = german.locator(".stage-picture").bounding_box()
    assert picture is not None
    # The promise of the grid's row (17rem), less its controls; with the head in one column it was nothing.
    assert picture["height"] > 100
    # On the smallest screen the slider keeps clear of the button beside it.
    german.set_viewport_size({"width": 320, "height": 700})
    slider, end = (german.locator(one).bounding_box() for one in ("#fold", ".fold-end >> nth=1"))
    assert slider is not None
    assert end is not None
    assert slider["x"] + slider["width"] < end["x"] - 4


def test_a_refused_entry_is_told_in_german_and_keeps_the_job(german: Page) -> None:
    entry = german.locator("#field-bars-depth-mm")
    before = entry.input_value()
    entry.fill("3")
    entry.press("Enter")
    told = german.locator("#field-bars-depth-mm-wrong")
    # Derived: the core's limits of the bar depth.
    expect(told).to_contain_text("Leistentiefe \N{EN DASH} verlangt: 6 bis 100 mm; angegeben: 3.")
    entry.press("Escape")
    expect(entry).to_have_value(before)
    entry.fill("zwei")
    entry.press("Enter")
    expect(told).to_contain_text("zum Beispiel 297 oder 38,5")
    entry.press("Escape")


def test_the_language_is_chosen_by_hand_too_and_kept(german: Page) -> None:
    german.locator("#language").get_by_label("English").click()
    expect(german.locator("html")).to_have_attribute("lang", "en")
    expect(german.locator("#sides")).to_contain_text("Side fill", timeout=60_000)
    german.reload()
    expect(german.locator("html")).to_have_attribute("lang", "en")
