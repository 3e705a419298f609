"""The work in hand survives: undo and redo, a reload, and the death of the core."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from bench import Bench
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def job_of(bench: Bench, folder: Path) -> dict[str, Any]:
    job: dict[str, Any] = json.loads(bench.save_job(folder).read_text(encoding="utf-8"))
    return job


def open_china(bench: Bench, china: Path) -> None:
    bench.start()
    bench.open_picture(china)
    bench.opened("china.jpg")


@pytest.fixture(scope="module")
def demo(module_bench: Bench) -> Bench:
    """One page for the tests that leave their job behind; they come in the order in which they stand here."""
    return module_bench.start()


def test_undo_brings_the_former_picture_back(demo: Bench, china: Path) -> None:
    bench = demo
    wall = bench.wall_picture()
    bench.open_picture(china)
    bench.opened("china.jpg")
    bench.button("Undo").click()
    bench.opened("estuary.jpg")
    assert bench.wall_picture() == wall
    expect(bench.page.locator(".demo-note")).to_be_visible()


def test_a_drag_of_a_slider_is_one_step(demo: Bench, tmp_path: Path) -> None:
    bench = demo
    before = job_of(bench, tmp_path)["bars"]["depth_mm"]
    slider = bench.page.get_by_role("slider", name="Bar depth, by slider")
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    assert box is not None
    bench.page.mouse.move(box["x"] + box["width"] * 0.45, box["y"] + box["height"] / 2)
    bench.page.mouse.down()
    for step in range(8):
        bench.page.mouse.move(box["x"] + box["width"] * (0.45 + step * 0.05), box["y"] + box["height"] / 2)
        bench.settled()
    bench.page.mouse.up()
    bench.settled()
    assert job_of(bench, tmp_path)["bars"]["depth_mm"] > before
    bench.button("Undo").click()
    bench.settled()
    assert job_of(bench, tmp_path)["bars"]["depth_mm"] == before


def test_a_job_is_saved_and_opened(demo: Bench, tmp_path: Path) -> None:
    bench = demo
    bench.set("bars.depth_mm", "24")
    saved = bench.save_job(tmp_path)
    bench.set("bars.depth_mm", "44")
    bench.open_job(saved)
    expect(bench.field("bars.depth_mm")).to_have_value("24")
    assert json.loads(saved.read_text())["picture"] == {"file": "estuary.jpg", "turn": 0}


def test_undo_and_redo_by_keys_and_buttons(demo: Bench, china: Path, tmp_path: Path) -> None:
    bench = demo
    bench.open_picture(china)
    bench.opened("china.jpg")
    first = job_of(bench, tmp_path)
    bench.set("bars.depth_mm", "20")
    bench.choose("Corner finish", "Lapped")
    last = job_of(bench, tmp_path)
    assert (last["bars"]["depth_mm"], last["wrap"]["finish"]) == (20, "lapped")
    bench.page.locator("body").press("Control+z")
    bench.settled()
    assert job_of(bench, tmp_path)["wrap"]["finish"] == "tucked"
    bench.button("Undo").click()
    bench.settled()
    assert job_of(bench, tmp_path) == first
    bench.page.locator("body").press("Control+Shift+Z")
    bench.page.locator("body").press("Control+Shift+Z")
    bench.settled()
    assert job_of(bench, tmp_path) == last
    expect(bench.button("Redo")).to_be_disabled()


def test_dropped_and_pasted_pictures(demo: Bench, china: Path) -> None:
    bench = demo
    give = """([bytes, name, how]) => {
      const file = new File([new Uint8Array(bytes)], name, { type: "image/jpeg" });
      const data = new DataTransfer();
      data.items.add(file);
      document.body.dispatchEvent(how === "drop"
        ? new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true })
        : new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
    }"""
    for how in ("drop", "paste"):
        bench.page.evaluate(give, [list(china.read_bytes()), f"{how}.jpg", how])
        bench.opened(f"{how}.jpg")


def test_a_reload_keeps_job_and_picture(bench: Bench, china: Path, tmp_path: Path) -> None:
    open_china(bench, china)
    bench.set("bars.depth_mm", "27")
    before = job_of(bench, tmp_path)
    bench.kept("job.bars.depth_mm === 27")
    bench.page.reload()
    bench.wait_shown()
    bench.opened("china.jpg")
    assert job_of(bench, tmp_path) == before


@pytest.mark.parametrize(
    "death",
    ["setTimeout(() => { throw new Error('a fault in the core') }, 0)", "self.close()"],
    ids=["uncaught error", "ended"],
)
def test_a_dead_core_is_started_again(bench: Bench, china: Path, tmp_path: Path, death: str) -> None:
    open_china(bench, china)
    bench.set("bars.depth_mm", "27")
    before, wall = job_of(bench, tmp_path), bench.wall_picture()
    bench.page.workers[0].evaluate(death)
    expect(bench.page.locator(".status-announcement")).to_contain_text("started again", timeout=30_000)
    expect(bench.page.locator("#loading-progress")).to_have_count(0, timeout=120_000)
    bench.settled()
    assert job_of(bench, tmp_path) == before
    assert bench.wall_picture() == wall
    bench.set("bars.depth_mm", "30")
