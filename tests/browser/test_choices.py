"""Fills, finishes and intents chosen by eye: pictures, names, keys, and what is said where there are none."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest
from bench import Bench
from demo_given import DEMO_PICTURE, reduced_demo
from playwright.sync_api import FilePayload, Locator, Page, expect
from test_access import violations

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True

#: All pictures of a choice, on a busy machine.
DRAWN_MS = 90_000

FILLS = ["run-on", "mirror", "drawn-out", "plain", "fade", "continued"]
FINISHES = ["tucked", "lapped", "trimmed"]
INTENTS = ["perceptual", "relative", "saturation", "absolute"]

CHOICES = [("sides-fill", FILLS, 1), ("wrap-finish", FINISHES, 2), ("colour-intent", INTENTS, 1)]

#: A sum of every pixel of every picture of an option, which differs as soon as the pictures do.
PRINT_OF_PIXELS = """option => [...option.querySelectorAll("canvas")].map(canvas => {
  const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
  return data.reduce((sum, value, at) => (sum * 31 + value * (at % 251 + 1)) % 1000000007, 0);
})"""


@pytest.fixture(scope="module")
def at_work(module_bench: Bench) -> Bench:
    return module_bench.start()


def option(page: Page, choice: str, value: str) -> Locator:
    return page.locator(f"#field-{choice} .picture-option[data-option={value}]")


def section_of(choice: str) -> str:
    return f"section:has(#field-{choice})"


def seen(page: Page, choice: str, values: list[str]) -> None:
    """Bring a choice on to the screen and wait for its pictures."""
    page.locator(f"#field-{choice}").scroll_into_view_if_needed()
    for value in values:
        expect(option(page, choice, value)).to_have_attribute("data-state", "drawn", timeout=DRAWN_MS)


def job_file(**parts: object) -> FilePayload:
    """A job of the demo's picture, as pages get it, which is in hand."""
    picture = {"file": DEMO_PICTURE.name, "sha256": hashlib.sha256(reduced_demo()).hexdigest()}
    return {
        "name": "job.json",
        "mimeType": "application/json",
        "buffer": json.dumps({"version": 2, "picture": picture, **parts}).encode(),
    }


def test_nothing_is_drawn_before_it_is_seen(at_work: Bench) -> None:
    place = option(at_work.page, "colour-intent", "relative")
    expect(place).to_have_attribute("data-state", "waiting")
    expect(place.locator(".picture-wait")).to_have_text("Drawing …")
    # It can be chosen all the same.
    expect(place.locator("input")).to_be_checked()


@pytest.mark.parametrize(("choice", "values", "pictures"), CHOICES)
def test_every_option_has_its_own_picture(
    at_work: Bench, choice: str, values: list[str], pictures: int
) -> None:
    page = at_work.page
    seen(page, choice, values)
    found = [option(page, choice, value).evaluate(PRINT_OF_PIXELS) for value in values]
    assert all(len(one) == pictures for one in found)
    # Tucked and trimmed corners look alike from the front; the picture from behind tells them apart.
    assert len({one[-1] for one in found}) == len(values)


@pytest.mark.parametrize(("choice", "values", "pictures"), CHOICES)
def test_an_option_is_named_by_its_word_and_described_by_its_cost(
    at_work: Bench, choice: str, values: list[str], pictures: int
) -> None:
    page = at_work.page
    seen(page, choice, values)
    for value in values:
        one = option(page, choice, value)
        radio = one.locator("input")
        word = one.locator(".picture-word").inner_text()
        expect(radio).to_have_role("radio")
        expect(radio).to_have_accessible_name(word)
        # The meaning, and figures.
        expect(radio).to_have_accessible_description(re.compile(r"\w{3}.*\d"))
        expect(one.locator(".picture-place")).to_have_attribute("aria-hidden", "true")
        assert one.locator("canvas").count() == pictures


def test_keys_alone_choose_and_the_pictures_stay(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    seen(page, "sides-fill", FILLS)
    before = [option(page, "sides-fill", value).evaluate(PRINT_OF_PIXELS) for value in FILLS]
    option(page, "sides-fill", "mirror").locator("input").focus()
    page.keyboard.press("ArrowRight")
    at_work.settled()
    expect(option(page, "sides-fill", "drawn-out").locator("input")).to_be_checked()
    assert page.evaluate("document.activeElement.matches('.picture-option input:focus-visible')")
    outline = option(page, "sides-fill", "drawn-out").evaluate("one => getComputedStyle(one).outlineStyle")
    assert outline == "solid"
    assert json.loads(at_work.save_job(tmp_path).read_text())["sides"]["fill"] == "drawn-out"
    for value, former in zip(FILLS, before, strict=True):
        one = option(page, "sides-fill", value)
        expect(one).to_have_attribute("data-state", "drawn", timeout=DRAWN_MS)
        assert one.evaluate(PRINT_OF_PIXELS) == former
    option(page, "sides-fill", "mirror").click()
    at_work.settled()


def test_old_pictures_are_marked_until_the_new_ones_come(at_work: Bench) -> None:
    page = at_work.page
    seen(page, "sides-fill", FILLS)
    one = option(page, "sides-fill", "mirror")
    before = one.evaluate(PRINT_OF_PIXELS)
    one.evaluate(
        """one => {
          window.states = [];
          const note = () => window.states.push(one.dataset.state);
          new MutationObserver(note).observe(one, { attributes: true });
        }"""
    )
    page.locator("#field-sides-blur-mm").fill("6")
    page.locator("#field-sides-blur-mm").press("Enter")
    page.wait_for_function(
        "() => window.states.includes('stale') && window.states.at(-1) === 'drawn'", timeout=DRAWN_MS
    )
    assert "waiting" not in page.evaluate("window.states")
    expect(page.locator(".field", has=one)).not_to_contain_text("before its last change")
    assert one.evaluate(PRINT_OF_PIXELS) != before


def test_axe_finds_nothing(at_work: Bench) -> None:
    """Once all three choices are drawn; what differs in the states below is looked at in its section."""
    page = at_work.page
    for choice, values, pictures in CHOICES:
        seen(page, choice, values)
        expect(page.locator(f"#field-{choice} canvas")).to_have_count(pictures * len(values))
        assert violations(page, parts=[section_of(choice)]) == []
    # The rest of the page is as test_access.py finds it: of that, what one part may do to another.
    assert violations(page, contrast=False) == []


def test_what_this_canvas_cannot_have_says_why(at_work: Bench) -> None:
    page = at_work.page
    at_work.open_job(
        job_file(face={"width_mm": 100, "height_mm": 100}, bars={"depth_mm": 40}, wrap={"finish": "trimmed"})
    )
    expect(at_work.field("face.width_mm")).to_have_value("100")
    at_work.settled()
    seen(page, "wrap-finish", FINISHES)
    tucked = option(page, "wrap-finish", "tucked")
    expect(tucked.locator("canvas")).to_have_count(0)
    expect(tucked.locator(".picture-says")).to_contain_text("at least 130 mm")
    expect(option(page, "wrap-finish", "trimmed").locator("canvas")).to_have_count(2)
    assert violations(page, parts=[section_of("wrap-finish")]) == []


def test_where_nothing_can_be_drawn_it_is_said_and_may_be_tried_again(at_work: Bench) -> None:
    page = at_work.page
    at_work.open_job(job_file(colour={"profile": "lost.icc"}, face={"width_mm": 210, "height_mm": 160}))
    expect(at_work.field("face.width_mm")).to_have_value("210")
    at_work.settled()
    choice = page.locator(".field", has=page.locator("#field-colour-intent"))
    choice.scroll_into_view_if_needed()
    expect(choice.get_by_role("alert")).to_contain_text("could not be drawn", timeout=DRAWN_MS)
    expect(choice.get_by_role("alert")).to_contain_text("lost.icc")
    # What was drawn for the job before stays, and says so.
    expect(choice).to_contain_text("before its last change")
    expect(option(page, "colour-intent", "relative")).to_have_attribute("data-state", "stale")
    assert violations(page, parts=[section_of("colour-intent")]) == []
    choice.get_by_role("button", name="Draw them again").click()
    expect(choice.get_by_role("alert")).to_contain_text("could not be drawn", timeout=DRAWN_MS)
    # The choice itself works.
    option(page, "colour-intent", "perceptual").click()
    at_work.settled()
    expect(option(page, "colour-intent", "perceptual").locator("input")).to_be_checked()


def test_a_side_of_its_own_is_chosen_by_pictures_too(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    # By the key: a line above may come or go with the pictures and move this away from under a pointer.
    page.locator("summary", has_text="Give one side its own fill").press("Enter")
    page.get_by_label("Left side differs").press("Space")
    at_work.settled()
    seen(page, "sides-left-fill", FILLS)
    found = [option(page, "sides-left-fill", value).evaluate(PRINT_OF_PIXELS)[0] for value in FILLS]
    assert len(set(found)) == len(FILLS)
    option(page, "sides-left-fill", "plain").click()
    at_work.settled()
    sides = json.loads(at_work.save_job(tmp_path).read_text())["sides"]
    assert (sides["left"]["fill"], sides["fill"]) == ("plain", "mirror")
    seen(page, "sides-left-fill", FILLS)
    assert violations(page, parts=[section_of("sides-left-fill")]) == []
