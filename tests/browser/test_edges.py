"""Edges worth a look on the page: notes in the margin, the figures, the better fill taken and taken back."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from bench import Bench
from PIL import Image
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True

#: An answer, on a busy machine.
ANSWER_MS = 30_000


@pytest.fixture(scope="module")
def slanted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Light grey; out of the middle of the left edge a dark line runs down at 45 degrees."""
    y, x = np.mgrid[0:600, 0:800]
    line = (np.abs(y - x - 300) < 8) & (x < 160)
    out = io.BytesIO()
    Image.fromarray(np.where(line, 40, 200).astype(np.uint8)).convert("RGB").save(out, "PNG")
    path = tmp_path_factory.mktemp("edges") / "slanted.png"
    path.write_bytes(out.getvalue())
    return path


@pytest.fixture(scope="module")
def at_work(module_bench: Bench, slanted: Path) -> Bench:
    module_bench.start()
    module_bench.open_picture(slanted)
    module_bench.opened(slanted.name)
    known(module_bench)
    return module_bench


def known(bench: Bench) -> None:
    bench.settled()
    bench.page.wait_for_function(
        "() => document.documentElement.dataset.edges === 'known'", timeout=ANSWER_MS
    )


def test_the_broken_side_is_noted_and_the_better_fill_taken_by_keyboard(at_work: Bench) -> None:
    page = at_work.page
    note = page.locator(".note", has_text="The left side shows a broken line")
    expect(note).to_have_count(1)
    take = note.get_by_role("button", name="for the left side")
    expect(take).to_have_count(1)
    take.press("Enter")
    at_work.settled()
    expect(note).to_have_count(0)
    # The button is gone; the focus is not lost.
    expect(page.locator("#notes-title")).to_be_focused()
    expect(page.get_by_label("Left side differs")).to_be_checked()
    known(at_work)
    expect(page.locator("#edges-says")).to_contain_text("Every side's fill suits")
    # One step, which undo takes back.
    page.keyboard.press("Control+z")
    known(at_work)
    expect(page.get_by_label("Left side differs")).not_to_be_checked()
    expect(note).to_have_count(1)


def test_the_figures_stand_in_a_table_that_names_each_side(at_work: Bench) -> None:
    page = at_work.page
    page.get_by_text("The figures of each side").press("Enter")
    table = page.get_by_role("table", name="What the picture has beside each front edge, 0 to 1")
    expect(table.get_by_role("rowheader")).to_have_text(["Top", "Right", "Bottom", "Left"])
    expect(table.get_by_role("columnheader")).to_have_text(
        ["Side", "Busy", "Doubled", "Broken", "Cut", "Streaked"]
    )
    broken = [float(text) for text in table.locator("tbody tr:first-child td:nth-child(4)").all_inner_texts()]
    assert broken[3] > 0.8
    assert max(broken[:3]) < 0.1
    expect(table.get_by_role("button", name="for the left side")).to_have_count(1)
    laid = page.get_by_role("table", name="What a mirror and lines continued would look like, 0 to 1")
    expect(laid.get_by_role("columnheader")).to_have_text(
        ["Side", "Chevrons", "Repeated", "Smeared", "Bent", "Severed"]
    )
    bent = [float(text) for text in laid.locator("tbody tr td:nth-child(5)").all_inner_texts()]
    # derived: the line goes on at its 45 degrees.
    assert max(bent) < 0.2
    page.get_by_text("The figures of each side").press("Enter")


def test_a_side_that_is_changed_by_hand_is_spoken_of_no_more(at_work: Bench) -> None:
    page = at_work.page
    at_work.choose("Side fill", "Plain colour")
    known(at_work)
    expect(page.locator(".note", has_text="broken line")).to_have_count(0)
    at_work.choose("Side fill", "Mirror")
    known(at_work)
    expect(page.locator(".note", has_text="broken line")).to_have_count(1)


def test_sides_that_became_mirrors_are_named(at_work: Bench, china: Path) -> None:
    page = at_work.page
    at_work.open_picture(china)
    at_work.opened(china.name)
    page.locator("input[name='field-sides-fill'][value='continued']").click()
    known(at_work)
    note = page.locator(".note", has_text="since lines continued would look no better there")
    expect(note).to_have_count(1)
    # Regression: which they are is the plans' own judgement of this photograph.
    expect(note).to_contain_text("The bottom and left sides are mirrors")
    expect(page.locator(".note", has_text="A side that would look no better so is a mirror")).to_have_count(1)
    expect(page.locator(".side-advice").nth(2)).to_contain_text("A mirror suits it better")
