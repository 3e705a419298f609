"""Variants side by side on the page: captions with the core's figures, one kept, and no texture too many."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from bench import Bench
from demo_given import DEMO_PICTURE
from playwright.sync_api import Locator, expect

from pycore.bars.weight import mass_words, whole_g
from pycore.contract.check import check_job
from pycore.layout.report import layout_report
from pycore.picture.read import read_picture

pytestmark = pytest.mark.browser

TIMES = "\u00d7"

#: Four variants, on a busy machine.
ANSWER_MS = 60_000


@pytest.fixture(scope="module")
def at_work(module_bench: Bench) -> Bench:
    return module_bench.start()


def compared(bench: Bench) -> Locator:
    """The captions on the wall, once they are of the job as it is."""
    bench.settled()
    bench.page.wait_for_function(
        "() => document.documentElement.dataset.compare === 'shown'", timeout=ANSWER_MS
    )
    return bench.page.locator(".pane-caption")


def textures(bench: Bench) -> int:
    """What the stage counts."""
    return int(bench.page.evaluate("document.documentElement.dataset.textures"))


def figures(caption: Locator) -> dict[str, str]:
    found: dict[str, str] = caption.evaluate(
        """(caption) => Object.fromEntries([...caption.querySelectorAll("[data-figure]")].map(
             (one) => [one.dataset.figure, one.querySelector("dd").textContent.replace(/\\s/g, " ")]))"""
    )
    return found


def expected(tree: dict[str, Any], picture: bytes, *, heaviest_g: float) -> dict[str, str]:
    """The same from the core here, weights in the unit of the heaviest."""
    job = check_job(tree)
    info = read_picture(picture, file=DEMO_PICTURE.name).info
    layout = layout_report(job, picture_px=(info.width_px, info.height_px))
    assert layout.use is not None
    across, down = layout.flat.canvas_mm
    lost = layout.use.cut_away_share * 100
    return {
        "lost": f"{lost:.1f}".removesuffix(".0") if lost < 10 else f"{lost:.0f}",
        "canvas": f"{across:.1f} x {down:.1f}".replace(".0", ""),
        "fits": "yes" if layout.sheet.fits else "no",
        "weight": f"{layout.flat.weight_g:.0f}",
        "piece": re.sub(" k?g$", "", mass_words(whole_g(job), heaviest=heaviest_g)),
    }


def test_depths_hang_beside_one_another_with_the_core_s_figures(
    at_work: Bench, small_demo: bytes, tmp_path: Path
) -> None:
    page = at_work.page
    page.locator("#start-depths").press("Enter")
    captions = compared(at_work)
    expect(captions).to_have_count(3)
    expect(captions.locator("strong")).to_have_text(["18 mm", "38 mm", "50 mm"])
    # A mirror shows the same at every depth: one texture for the three.
    assert textures(at_work) == 1
    tree = check_job_tree(at_work, tmp_path)
    heaviest_g = whole_g(check_job(tree | {"bars": tree["bars"] | {"depth_mm": 50}}))[1]
    for depth, caption in zip((18, 38, 50), captions.all(), strict=True):
        tree["bars"]["depth_mm"] = depth
        shown = figures(caption)
        assert re.fullmatch(r"[\d.]+ %", shown.pop("clipped"))
        bare = {name: re.sub(r" (mm|k?g|%)$", "", text).replace(TIMES, "x") for name, text in shown.items()}
        assert bare == expected(tree, small_demo, heaviest_g=heaviest_g)
    expect(page.locator("#compare-says")).to_contain_text("Side by side: 18 mm, 38 mm and 50 mm.")
    expect(page.locator("#compare-figures tbody")).to_have_count(3)


def check_job_tree(bench: Bench, folder: Path) -> dict[str, Any]:
    tree: dict[str, Any] = json.loads(bench.save_job(folder).read_text(encoding="utf-8"))
    return tree


def test_variants_follow_the_job_and_the_unit(at_work: Bench) -> None:
    page = at_work.page
    captions = compared(at_work)
    before = figures(captions.nth(0))["canvas"]
    at_work.set("face.width_mm", "333")
    captions = compared(at_work)
    # derived: 333 + 0.9 + 2 (18 + 25) mm.
    assert figures(captions.nth(0))["canvas"].startswith(f"419.9 {TIMES}")
    page.keyboard.press("Control+z")
    captions = compared(at_work)
    expect(captions.nth(0).locator("[data-figure=canvas] dd")).to_have_text(before)


def test_one_is_kept_in_one_step_that_undo_takes_back(at_work: Bench) -> None:
    page = at_work.page
    depth = at_work.field("bars.depth_mm")
    before = depth.input_value()
    captions = compared(at_work)
    captions.nth(2).get_by_role("button", name="Keep this one: 50 mm").press("Enter")
    at_work.settled()
    expect(depth).to_have_value("50")
    expect(captions).to_have_count(0)
    # The job's own canvas hangs there alone again.
    assert textures(at_work) == 1
    page.keyboard.press("Control+z")
    at_work.settled()
    expect(depth).to_have_value(before)
    expect(captions).to_have_count(0)


def test_fills_have_a_texture_each(at_work: Bench) -> None:
    page = at_work.page
    page.locator("#start-fill").press("Enter")
    captions = compared(at_work)
    labels = ["Picture runs on", "Mirror", "Edge drawn out", "Mirror into plain"]
    expect(captions.locator("strong")).to_have_text(labels)
    assert textures(at_work) == 4
    lost = [figures(one)["lost"] for one in captions.all()]
    # Running on gives the sides picture and keeps the shape of face and sides; the others the face's.
    assert lost[1] == lost[2] == lost[3] != lost[0]
    page.get_by_role("button", name="End the comparison").first.press("Enter")
    expect(captions).to_have_count(0)
    assert textures(at_work) == 1


def test_a_list_that_is_none_says_so_beside_it(at_work: Bench) -> None:
    page = at_work.page
    entry = page.locator("#compare-depths")
    alert = page.locator("#compare .error-text")
    for text, says in (
        ("18, deep", "you gave “deep”"),
        ("18", "must be 2 to 4 depths for a comparison; you gave 1"),
        ("18, 18", "must be values that differ"),
        ("18, 300", "6 to 100 mm; you gave 300"),
    ):
        entry.fill(text)
        entry.press("Enter")
        expect(alert).to_contain_text(says, timeout=ANSWER_MS)
        expect(page.locator(".pane-caption")).to_have_count(0)
    entry.fill("18, 25")
    entry.press("Enter")
    expect(compared(at_work)).to_have_count(2)
    expect(alert).to_have_count(0)


def test_on_a_phone_the_captions_are_one_line_and_the_table_has_the_rest(at_work: Bench) -> None:
    page = at_work.page
    # In the narrow column beside the stage no short word of the table is broken.
    page.set_viewport_size({"width": 1024, "height": 768})
    lines = page.locator(
        "#compare-figures thead th:nth-child(3), #compare-figures td:nth-child(3)"
    ).evaluate_all(
        """(cells) => cells.map((cell) => {
          const text = document.createRange();
          text.selectNodeContents(cell);
          return text.getClientRects().length;
        })"""
    )
    assert len(lines) > 2
    assert set(lines) == {1}
    page.set_viewport_size({"width": 390, "height": 844})
    captions = compared(at_work)
    expect(captions.first.locator("strong")).to_be_visible()
    expect(captions.first.locator("[data-figure=weight]")).to_be_hidden()
    table = page.locator("#compare-figures")
    table.scroll_into_view_if_needed()
    expect(table.locator("[data-figure=weight]").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    # The button lies on no variant's wall.
    end, walls = (page.locator(one).bounding_box() for one in (".end-comparison", ".stage-picture"))
    assert end is not None
    assert walls is not None
    assert end["y"] >= walls["y"] + walls["height"]
    for caption in captions.all():
        box = caption.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 390
        # Derived: letters of 12 px in lines of 14.4 px with 6.4 px of padding; two lines would take 35.
        assert box["height"] < 30
