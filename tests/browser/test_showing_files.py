"""Stills and the turntable on the page, what a change of depth costs, a wall that is lost or never there."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from bench import CHANGE_MS, WRITE_MS, Bench
from chromium import launch_options
from conftest import watched_page
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser, Download, Page, expect
from rest import at_rest

pytestmark = pytest.mark.browser

#: Counts what the page asks of the worker, by method.
COUNT_CALLS = """() => {
  window.asked = [];
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    if (message && typeof message.method === "string") window.asked.push(message.method);
    return post.call(this, message, ...rest);
  };
}"""

LOSE_WALL = """() => {
  const wall = document.querySelector(".wall-host canvas");
  window.losing = wall.getContext("webgl2").getExtension("WEBGL_lose_context");
  losing.loseContext();
}"""


@pytest.fixture(scope="module")
def started(module_bench: Bench) -> Bench:
    return module_bench.start()


def wall(page: Page) -> NDArray[np.uint8]:
    """The wall as it is on the screen, at rest."""
    at_rest(page)
    shot = page.locator(".wall-host").screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB"))


def pixels(file: Path) -> NDArray[np.int_]:
    with Image.open(file) as picture:
        return np.asarray(picture.convert("RGB"), int)


def saved(bench: Bench, button: str, folder: Path) -> Path:
    with bench.page.expect_download(timeout=WRITE_MS) as caught:
        bench.button(button).click()
    download = caught.value
    target = folder / download.suggested_filename
    download.save_as(target)
    return target


def test_a_depth_change_is_one_reply(started: Bench) -> None:
    page = started.page
    page.locator("#view").get_by_label("Side", exact=True).click()
    before = wall(page)
    page.evaluate(COUNT_CALLS)
    started.set("bars.depth_mm", "60")
    at_rest(page)
    asked = page.evaluate("window.asked")
    assert asked.count("show") == 1, asked
    assert (np.abs(wall(page).astype(int) - before).max(-1) > 40).mean() > 0.01


def test_a_still_is_saved_as_it_was_asked_for(started: Bench, tmp_path: Path) -> None:
    page = started.page
    page.locator("#still-view").get_by_label("Front", exact=True).click()
    for side, px in (("width", "900"), ("height", "600")):
        started.type_in(f"stills.{side}", px)
    drawn = pixels(saved(started, "Save the still", tmp_path))
    assert drawn.shape == (600, 900, 3)
    page.locator("#still-scale").uncheck()
    plain = pixels(saved(started, "Save the still", tmp_path))
    changed = np.abs(drawn - plain).max(-1) > 30
    # The scale is in the lower left corner, and nothing of it in the face's middle.
    assert changed[520:, :300].any()
    assert not changed[280:320, 430:470].any()
    page.locator("#still-scale").check()


def test_five_stills_at_once(started: Bench, tmp_path: Path) -> None:
    page = started.page
    page.locator("#still-view").get_by_label("All five", exact=True).click()
    names: list[str] = []

    def fifth(download: Download) -> bool:
        names.append(download.suggested_filename)
        return len(names) == 5

    with page.expect_download(fifth, timeout=WRITE_MS):
        started.button("Save five stills").click()
    expect(page.locator("#stills .consequence", has_text="Saved:")).to_be_visible(timeout=WRITE_MS)
    endings = [name.removesuffix(".png").rsplit("-", 1)[1] for name in names]
    assert endings == ["front", "side", "corner", "back", "unfolded"]


@pytest.mark.parametrize(
    ("typed", "said"), [("0", "from 16 to 12000"), ("12001", "from 16 to 12000"), ("wide", "")]
)
def test_a_size_that_cannot_be_drawn_is_refused(started: Bench, typed: str, said: str) -> None:
    started.type_in("stills.width", typed)
    message = started.page.locator('[data-field="stills.width"] .error-text')
    expect(message).to_contain_text("must be")
    expect(message).to_contain_text(said)
    started.field("stills.width").press("Escape")


@pytest.mark.parametrize("kind", ["WebP", "GIF"])
def test_a_turntable_is_written_and_measured(started: Bench, tmp_path: Path, kind: str) -> None:
    page = started.page
    page.locator("#turn-kind").get_by_label(kind, exact=True).click()
    page.locator("#turn-size").get_by_label("320", exact=True).click()
    page.locator("#turn-frames").get_by_label("24", exact=True).click()
    file = saved(started, "Save the turntable", tmp_path)
    assert file.suffix == f".{kind.lower()}"
    with Image.open(file) as written:
        assert written.size == (320, 320)
        assert getattr(written, "n_frames", 1) == 24
        frames = []
        for k in (0, 12):
            written.seek(k)
            frames.append(np.asarray(written.convert("RGB"), int))
    # Half a turn on, the back is seen.
    assert (np.abs(frames[0] - frames[1]).max(-1) > 30).mean() > 0.1
    expect(page.locator("#turn-report")).to_contain_text("24 in")


def test_a_turntable_can_be_stopped(started: Bench) -> None:
    page = started.page
    page.locator("#turn-frames").get_by_label("72", exact=True).click()
    started.button("Save the turntable").click()
    page.locator("#turntable").get_by_role("button", name="Stop").click()
    expect(page.locator("#turntable")).to_contain_text("Stopped; no file was saved.", timeout=CHANGE_MS)


def test_a_lost_wall_comes_back_or_leaves_a_picture(started: Bench) -> None:
    """Last of this page: first it stays away, and the sheet goes on; then it comes back with the change."""
    page = started.page
    before = wall(page)
    page.evaluate(LOSE_WALL)
    # Among the messages, so that none covers it.
    expect(page.locator(".status > .lost")).to_contain_text("being restarted")
    expect(page.locator(".lost")).to_contain_text("still picture", timeout=9000)
    expect(page.locator(".stage-snapshot")).to_be_visible()
    # Under the message the picture is as it was.
    height = before.shape[0]
    middle = slice(height // 2, height * 3 // 4)
    assert np.abs(wall(page)[middle].astype(int) - before[middle]).mean() < 1
    expect(page.locator("#save-stills")).to_be_disabled()
    started.scene("Sheet")
    started.set("bars.depth_mm", "38")
    expect(page.locator(".flat-texture")).to_be_visible()
    started.scene("Wall")
    page.evaluate("losing.restoreContext()")
    expect(page.locator(".lost")).to_have_count(0)
    expect(page.locator(".stage-snapshot")).to_have_count(0)
    assert (np.abs(wall(page).astype(int) - before).max(-1) > 40).mean() > 0.005
    expect(page.locator("#save-stills")).to_be_enabled()


@pytest.fixture
def without_webgl(browser: Browser, site: str, small_demo: bytes) -> Iterator[Bench]:
    """The page in a browser that has no WebGL at all."""
    bare = browser.browser_type.launch(**launch_options("none"))
    with watched_page(bare, [], small_demo) as page:
        yield Bench(page, site)
    bare.close()


def test_without_webgl_the_sheet_and_the_files_work(without_webgl: Bench, tmp_path: Path) -> None:
    bench = without_webgl.start()
    page = bench.page
    assert page.evaluate("document.createElement('canvas').getContext('webgl2')") is None
    expect(page.locator(".flat-texture")).to_be_visible()
    expect(page.locator(".no-wall")).to_be_visible()
    bench.set("bars.depth_mm", "20")
    bench.set("print.ppi", "72")
    with Image.open(bench.write_file("PNG", tmp_path)) as written:
        # Derived: 240 and 180 mm, canvas of 0.45 mm twice, two sides of 20 mm and two turn-overs of 25 mm.
        assert written.size == pytest.approx([mm / 25.4 * 72 for mm in (330.9, 270.9)], abs=1)
    expect(page.locator("#save-stills")).to_be_disabled()
    expect(page.locator("#make-turntable")).to_be_disabled()
