"""Colour on the page: proof, clip map, groups, intents, bringing in, the gamut's solid."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest
from bench import Bench
from colour_bench import (
    WORK_MS,
    calls,
    colour_at_work,
    job_of,
    known,
    look_at,
    see_colour,
    share,
)
from PIL import Image
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def at_work(module_bench: Bench, small_china: Path) -> Bench:
    """A page with a photograph open and the section about colour in view; what it sends is noted."""
    return colour_at_work(module_bench, small_china)


def test_the_illustrative_canvas_is_called_one(at_work: Bench) -> None:
    label = "Illustration only: an invented matte canvas, not a measured one."
    section = at_work.page.locator('[data-field="colour.profile"]')
    expect(section).to_contain_text(label)
    look_at(at_work, "As printed")
    expect(at_work.page.locator("#colour-caption")).to_contain_text(label)
    look_at(at_work, "Gamut map")
    expect(at_work.page.locator("#colour-caption")).to_contain_text(label)
    look_at(at_work, "Original")
    expect(at_work.page.locator("#colour-caption")).to_have_count(0)


#: Keeps the ink of the sentence about clipping while its figures are those of the job before.
WATCH_FORMER = """() => {
  const [says] = document.querySelectorAll("#clip-says");
  new MutationObserver((_changes, watch) => {
    if (says.parentElement.dataset.pending !== "true") return;
    window.formerInk = getComputedStyle(says).color;
    watch.disconnect();
  }).observe(says.parentElement, { attributes: true });
}"""


def test_views_switch_without_a_call(at_work: Bench) -> None:
    page = at_work.page
    known(at_work)
    calls(page)
    scenes: dict[Literal["Wall", "Sheet"], Callable[[], bytes]] = {
        "Wall": at_work.wall_picture,
        "Sheet": at_work.sheet_picture,
    }
    for scene, picture in scenes.items():
        at_work.scene(scene)
        seen = []
        for word in ("Original", "As printed", "Gamut map"):
            look_at(at_work, word)
            seen.append(picture())
        assert len(set(seen)) == 3, scene
        look_at(at_work, "Original")
        assert picture() == seen[0], scene
    at_work.scene("Wall")
    assert calls(page) == []


def test_the_threshold_moves_live(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    look_at(at_work, "Gamut map")
    see_colour(at_work)
    before, figures = at_work.wall_picture(), page.locator("#clip-says").inner_text()
    calls(page)
    slider = page.get_by_role("slider", name="Threshold of the gamut map, by slider")
    box = slider.bounding_box()
    assert box is not None
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + box["width"] * 2 / 15, middle)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.5, middle, steps=4)
    assert at_work.wall_picture() != before
    expect(page.locator("#clip-scale")).to_contain_text(re.compile(r"7\.\d\sΔE00"))
    assert calls(page) == []
    assert page.locator("#clip-says").inner_text() == figures
    page.evaluate(WATCH_FORMER)
    page.mouse.up()
    known(at_work)
    now = page.locator("#clip-says").evaluate("one => getComputedStyle(one).color")
    assert page.evaluate("window.formerInk") not in (None, now)
    assert "clip" in calls(page)
    assert page.locator("#clip-says").inner_text() != figures
    assert job_of(at_work, tmp_path)["colour"]["clip_threshold_de"] == pytest.approx(7.5, abs=0.4)
    at_work.button("Undo").click()
    known(at_work)
    assert page.locator("#clip-says").inner_text() == figures
    look_at(at_work, "Original")


def test_groups_light_up_and_go_out(at_work: Bench) -> None:
    page = at_work.page
    see_colour(at_work)
    before = at_work.wall_picture()
    button = page.get_by_role("button", name=re.compile("^Show where")).first
    button.click()
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#colour-lit")).to_contain_text("out of gamut")
    assert at_work.wall_picture() != before
    page.keyboard.press("Escape")
    expect(button).to_have_attribute("aria-pressed", "false")
    expect(page.locator("#colour-lit")).to_have_count(0)
    at_work.scene("Sheet")
    plain = at_work.sheet_picture()
    button.click()
    expect(page.locator("#colour-lit")).to_contain_text("is out of gamut")
    assert at_work.sheet_picture() != plain
    page.get_by_role("button", name="End").click()
    expect(page.locator("#colour-lit")).to_have_count(0)
    assert at_work.sheet_picture() == plain
    at_work.scene("Wall")
    at_work.page.locator("#view").get_by_label("Side", exact=True).click()


def test_intents_side_by_side(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    calls(page)
    at_work.button("Compare the intents on this picture").click()
    rows = page.locator("#intents tbody")
    expect(rows).to_have_count(7, timeout=WORK_MS)
    assert calls(page) == ["intents"]
    expect(page.locator("#intents .tag")).to_have_count(1)
    expect(page.locator("#intents-reason")).to_contain_text(re.compile(r"Recommended: .*\d.*ΔE00"))
    for row in rows.all():
        figures = [cell.replace("\N{MINUS SIGN}", "-") for cell in row.locator("td").all_inner_texts()]
        assert len([float(figure) for figure in figures]) == 7
    chosen = page.locator('#intents tbody[data-chosen="true"]')
    expect(chosen).to_have_count(1)
    expect(chosen).to_contain_text("Relative colorimetric with black point compensation")
    rows.nth(0).get_by_role("button").click()
    known(at_work)
    expect(chosen).to_have_count(1)
    expect(rows.nth(0)).to_have_attribute("data-chosen", "true")
    colour = job_of(at_work, tmp_path)["colour"]
    assert (colour["intent"], colour["black_point_compensation"]) == ("perceptual", False)
    # The table is of all intents: it still holds.
    expect(page.locator("#intents")).to_have_attribute("data-outdated", "false")
    at_work.button("Undo").click()
    known(at_work)


def test_the_comparison_can_be_stopped(at_work: Bench) -> None:
    page = at_work.page
    at_work.set("bars.depth_mm", "24")
    expect(page.locator("#intents")).to_have_attribute("data-outdated", "true")
    at_work.button("Compare the intents on this picture").click()
    page.get_by_role("button", name="Stop", exact=True).click()
    expect(at_work.button("Compare the intents on this picture")).to_be_visible()
    at_work.button("Undo").click()
    known(at_work)
    expect(page.locator("#intents")).to_have_attribute("data-outdated", "false")


def test_bringing_in_lowers_the_share(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    see_colour(at_work)
    before = share(at_work, "Face", 0)
    assert before > 1
    calls(page)
    at_work.set("colour.bring_in", "100")
    known(at_work)
    # Brought in, coarsely; as it was; and finely, behind the figures, with which that shares work.
    assert [one for one in calls(page) if one in {"look", "clip"}] == ["look", "look", "clip", "look"]
    assert job_of(at_work, tmp_path)["colour"]["bring_in"] == 1
    assert share(at_work, "Face", 0) <= 0.5
    assert share(at_work, "Face", 4) == before
    look_at(at_work, "As printed")
    now = at_work.wall_picture()
    calls(page)
    hold = page.locator("#hold-before")
    hold.scroll_into_view_if_needed()
    box = hold.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 20, box["y"] + 10)
    page.mouse.down()
    expect(page.locator("#colour-caption")).to_contain_text("without bringing in")
    assert at_work.wall_picture() != now
    page.mouse.up()
    assert at_work.wall_picture() == now
    hold.press("Enter")
    expect(hold).to_have_attribute("aria-pressed", "true")
    hold.press("Enter")
    expect(hold).to_have_attribute("aria-pressed", "false")
    assert calls(page) == []
    at_work.button("Undo").click()
    known(at_work)
    assert share(at_work, "Face", 0) == before
    look_at(at_work, "Original")


def test_white_and_black_are_simulated_or_not(at_work: Bench, tmp_path: Path) -> None:
    look_at(at_work, "As printed")
    job = job_of(at_work, tmp_path)
    seen = set()
    for word in ("Fitted to the screen", "Canvas black", "Canvas white and black"):
        at_work.page.locator("#viewing").get_by_label(word, exact=True).click()
        known(at_work)
        seen.add(at_work.wall_picture())
    assert len(seen) == 3
    assert job_of(at_work, tmp_path) == job
    look_at(at_work, "Original")


def test_the_solid_is_drawn_and_told(at_work: Bench) -> None:
    page = at_work.page
    page.get_by_text("The canvas's gamut as a solid").click()
    said = page.locator("#solid-says")
    expect(said).to_contain_text(re.compile(r"Shown are the [\d,]+ commonest colours"), timeout=WORK_MS)
    expect(page.locator(".solid canvas")).to_be_visible()
    page.get_by_text("The canvas's gamut as a solid").click()
    expect(page.locator(".solid")).to_have_count(0)


def test_the_screen_is_spoken_of(at_work: Bench) -> None:
    said = at_work.page.locator("#screen-says")
    expect(said).to_contain_text("not calibrated cannot judge colour")
    expect(said).to_contain_text(re.compile("this screen shows .*drawn in sRGB"))


def box(at_work: Bench, selector: str) -> dict[str, float]:
    found = at_work.page.locator(selector).first.bounding_box()
    assert found is not None, selector
    x, y, width, height = found["x"], found["y"], found["width"], found["height"]
    return {"x": x, "y": y, "width": width, "height": height, "right": x + width, "bottom": y + height}


def test_words_cover_neither_the_canvas_on_a_phone_nor_the_figures_of_the_sheet(at_work: Bench) -> None:
    page = at_work.page
    page.set_viewport_size({"width": 390, "height": 844})
    at_work.scene("Wall")
    plain = box(at_work, ".stage-picture")
    for word in ("As printed", "Gamut map"):
        look_at(at_work, word)
        picture, caption = box(at_work, ".stage-picture"), box(at_work, "#colour-caption")
        assert caption["y"] >= picture["bottom"], word
        # The words take nothing from the canvas, but for a line's height that a font may take.
        assert picture["height"] > plain["height"] - 16, word
    look_at(at_work, "Original")
    page.set_viewport_size({"width": 1440, "height": 900})
    at_work.scene("Sheet")
    out = io.BytesIO()
    Image.new("RGB", (400, 640), (90, 120, 150)).save(out, "PNG")
    at_work.open_picture({"name": "upright.png", "mimeType": "image/png", "buffer": out.getvalue()})
    at_work.opened("upright.png")
    expect(page.locator(".status-announcement")).to_contain_text("largest round size")
    said, figure = box(at_work, ".status-said"), box(at_work, "text.figure")
    assert said["bottom"] <= figure["y"]
    page.set_viewport_size({"width": 1024, "height": 768})
    picture, said, controls = (
        box(at_work, one) for one in (".stage-picture", ".status-said", ".stage-controls")
    )
    assert picture["bottom"] <= said["y"]
    assert said["bottom"] <= controls["y"]
    page.set_viewport_size({"width": 1440, "height": 900})
    at_work.scene("Wall")
    look_at(at_work, "Gamut map")
    # Derived: a line of words beside the scale with its ticks, and one below; another would take 20 px more.
    assert box(at_work, "#colour-caption")["height"] < 90
