"""The cutting plan on the page: drawn to scale, pinned by keys, refused in a sentence, as natively."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bench import Bench
from playwright.sync_api import expect

from pycore.cli.main import main

pytestmark = pytest.mark.browser

SETTLED = "() => document.documentElement.dataset.plan === 'known'"

#: The 3D view has no part in it.
WITHOUT_WALL = True


def test_copies_are_planned_pinned_and_priced(
    bench: Bench, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bench.start()
    section = bench.page.locator("#cutting")
    section.scroll_into_view_if_needed()
    expect(bench.page.locator("#plan-says")).to_be_visible()
    bench.choose("Loaded in the printer", "A roll")
    bench.set("sheet.width_mm", "1118")
    section.scroll_into_view_if_needed()
    for field, text in (("copies", "5"), ("price", "18"), ("gap-mm", "4")):
        entry = bench.page.locator(f"#field-plan-{field}")
        entry.fill(text)
        entry.press("Enter")
    expect(bench.page.locator("#plan-says")).to_contain_text("5 canvases on")
    expect(bench.page.locator('#plan-figures [data-row="cost"]')).to_be_visible()
    bench.page.wait_for_function(SETTLED)
    job = bench.save_job(tmp_path)
    capsys.readouterr()
    assert main(["plan", str(job), "--copies", "5", "--gap", "4", "--json", "--price", "18"]) == 0
    native = json.loads(capsys.readouterr().out)
    expect(bench.page.locator('#plan-figures [data-row="cost"] td')).to_have_text(
        f"{native['figures']['cost']:.2f}"
    )
    expect(bench.page.locator(".cutting-piece")).to_have_count(5)
    first = native["sheets"][0]["pieces"][0]
    drawn = bench.page.locator(f'[data-piece="{first["name"]}"]')
    assert drawn.get_attribute("transform") == f"translate({first['x_mm']:g} {first['y_mm']:g})"

    drawn.focus()
    for _ in range(10):
        bench.page.keyboard.press("ArrowDown")
    bench.page.wait_for_function(SETTLED)
    # Derived: ten steps of a millimetre; none waits for the plan.
    expect(drawn).to_have_attribute("transform", f"translate({first['x_mm']:g} {first['y_mm'] + 10:g})")
    expect(bench.page.locator("#cutting [role=status]")).to_contain_text(
        drawn.get_attribute("aria-label") or "?"
    )
    expect(drawn).to_have_attribute("data-pinned", "true")
    # What is refused is said, and the piece stays where it was pinned.
    bench.page.locator("#cutting .more summary").first.click()
    entry = bench.page.locator("#field-plan-x_mm".replace("_", "-"))
    entry.fill("2000")
    entry.press("Enter")
    expect(bench.page.locator("#cutting .error-text")).to_contain_text("does not lie within the margins")
    expect(drawn).to_have_attribute("transform", f"translate({first['x_mm']:g} {first['y_mm'] + 10:g})")
    drawn.focus()
    bench.page.keyboard.press("Delete")
    expect(drawn).to_have_attribute("data-pinned", "false")
    # Copies and pins are of one order: another job begins with neither, be it of the same name.
    drawn.focus()
    bench.page.keyboard.press("ArrowDown")
    expect(drawn).to_have_attribute("data-pinned", "true")
    bench.open_job(job)
    expect(bench.page.locator(".cutting-piece")).to_have_count(1)
    expect(bench.field("plan.copies")).to_have_value("1")
    expect(bench.page.locator("[data-pinned=true]")).to_have_count(0)
    # Where no plan can be made, none of before stands below the reason.
    bench.type_in("plan.knife_mm", "80")
    expect(bench.page.locator("#cutting .error-text")).to_contain_text("0 to 20")
    expect(bench.page.locator("#plan-says")).to_have_count(0)
    expect(bench.page.locator(".cutting-piece")).to_have_count(0)
