"""The work in hand survives: undo and redo, a reload, and the death of the core."""

from __future__ import annotations

import hashlib
import io
import json
from pathlib import Path
from typing import Any

import pytest
from bench import Bench
from chromium import LIGHT
from PIL import Image
from playwright.sync_api import FilePayload, expect

pytestmark = pytest.mark.browser


def small_png() -> bytes:
    """A picture of 240 x 160 pixels with a slope of greys."""
    out = io.BytesIO()
    Image.linear_gradient("L").resize((240, 160)).convert("RGB").save(out, format="PNG")
    return out.getvalue()


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


def test_a_job_is_saved_and_opened(demo: Bench, small_demo: bytes, tmp_path: Path) -> None:
    bench = demo
    bench.set("bars.depth_mm", "24")
    saved = bench.save_job(tmp_path)
    bench.set("bars.depth_mm", "44")
    bench.open_job(saved)
    expect(bench.field("bars.depth_mm")).to_have_value("24")
    sha256 = hashlib.sha256(small_demo).hexdigest()
    expected = {"file": "estuary.jpg", "sha256": sha256, "turn": 0, "enlarging": "photograph"}
    assert json.loads(saved.read_text())["picture"] == expected
    expect(bench.page.locator("#picture-lacking")).to_have_count(0)


def test_undo_and_redo_by_keys_and_buttons(demo: Bench, china: Path, tmp_path: Path) -> None:
    bench = demo
    bench.open_picture(china)
    bench.opened("china.jpg")
    first = job_of(bench, tmp_path)
    bench.set("bars.depth_mm", "28")
    bench.choose("Corner finish", "Lapped")
    last = job_of(bench, tmp_path)
    assert (last["bars"]["depth_mm"], last["wrap"]["finish"]) == (28, "lapped")
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


def test_a_job_without_its_picture_is_empty(bench: Bench, china: Path, tmp_path: Path) -> None:
    open_china(bench, china)
    bench.set("bars.depth_mm", "24")
    job = bench.save_job(tmp_path)
    # Another visit, which knows nothing of the picture: the demo's must not take its place.
    browser = bench.page.context.browser
    assert browser is not None
    page = browser.new_context(accept_downloads=True, **LIGHT).new_page()
    page.clock.install()
    other = Bench(page, bench.address).start()
    demo = other.wall_picture()
    other.open_job(job)
    lacking = page.locator("#picture-lacking")
    expect(lacking).to_contain_text("china.jpg")
    assert other.wall_picture() != demo
    expect(page.locator("#use-picture")).to_have_count(0)
    for choice in ("sides-fill", "wrap-finish", "colour-intent"):
        field = page.locator(".field", has=page.locator(f"#field-{choice}"))
        expect(field).to_contain_text("there is nothing to draw")
        expect(field.locator("canvas")).to_have_count(0)
    page.clock.fast_forward(13_000)  # Announcements go after twelve seconds; this stays.
    expect(page.locator(".status-announcement")).to_be_empty()
    expect(lacking).to_be_visible()
    other.button("Save the print file").click()
    expect(page.locator("#print .error-text")).to_contain_text("The picture of this job is not open")
    page.get_by_role("button", name="Save the client page").click()
    expect(page.locator("#client-page .error-text")).to_contain_text("The picture of this job is not open")
    # Another picture of the same name is only offered; its own opens at once.
    wrong: FilePayload = {"name": "china.jpg", "mimeType": "image/png", "buffer": small_png()}
    other.open_picture(wrong)
    expect(lacking).to_contain_text("same name, but other content")
    expect(page.locator("#use-picture")).to_be_visible()
    other.open_picture(china)
    expect(lacking).to_have_count(0)
    other.opened("china.jpg")
    assert job_of(other, tmp_path) == json.loads(job.read_text(encoding="utf-8"))
    page.context.close()


def test_another_picture_is_used_when_the_person_says_so(bench: Bench, china: Path, tmp_path: Path) -> None:
    open_china(bench, china)
    job = json.loads(bench.save_job(tmp_path).read_text(encoding="utf-8"))
    job["picture"] = {"file": "lost.jpg", "sha256": "0" * 64, "turn": 0}
    text = json.dumps(job).encode()
    bench.open_job({"name": "job.json", "mimeType": "application/json", "buffer": text})
    bench.page.locator("#use-picture").click()
    expect(bench.page.locator("#picture-lacking")).to_have_count(0)
    bench.opened("china.jpg")
    assert job_of(bench, tmp_path)["picture"]["sha256"] == hashlib.sha256(china.read_bytes()).hexdigest()
    bench.button("Undo").click()
    expect(bench.page.locator("#picture-lacking")).to_contain_text("lost.jpg")


def test_two_tabs_never_mix_their_work(bench: Bench, china: Path, tmp_path: Path) -> None:
    open_china(bench, china)
    page = bench.page.context.new_page()
    other = Bench(page, bench.address)
    other.start()
    other.open_picture({"name": "small.png", "mimeType": "image/png", "buffer": small_png()})
    other.opened("small.png")
    other.kept("job.picture.file === 'small.png'")
    bench.set("bars.depth_mm", "31")
    bench.kept("job.picture.file === 'china.jpg' && job.bars.depth_mm === 31")
    page.reload()
    other.wait_shown()
    other.opened("china.jpg")
    expect(other.field("bars.depth_mm")).to_have_value("31")
    expect(page.locator("#picture-lacking")).to_have_count(0)


def test_the_words_to_the_client_are_kept(bench: Bench, china: Path) -> None:
    open_china(bench, china)
    bench.page.get_by_label("A few words to the client").fill("See the sides.")
    bench.kept("words === 'See the sides.'")
    bench.page.reload()
    bench.wait_shown()
    expect(bench.page.get_by_label("A few words to the client")).to_have_value("See the sides.")


def assert_small_on_a_phone(bench: Bench) -> None:
    """The announcement covers nothing of the canvas, stays small, and goes when it is closed."""
    page = bench.page
    wide = page.viewport_size
    assert wide is not None
    page.set_viewport_size({"width": 390, "height": 844})
    said, canvas = (page.locator(one).bounding_box() for one in (".status-said", ".stage-picture"))
    assert said is not None
    assert canvas is not None
    assert said["y"] >= canvas["y"] + canvas["height"]
    # Derived: two lines of 0.78 x 16 x 1.3 px, and twice 0.3 x 16 px around them.
    assert said["height"] <= 2 * 16.3 + 9.7
    page.get_by_role("button", name="Close the message").click()
    expect(page.locator(".status-announcement")).to_be_empty()
    page.set_viewport_size(wide)


def test_a_first_picture_gets_the_largest_face(bench: Bench, china: Path, tmp_path: Path) -> None:
    bench.start()
    bench.open_picture(china)
    bench.opened("china.jpg")
    # Derived: china.jpg is 640 x 427 pixels; half a millimetre of the shorter side is under 0.3 percent.
    face = job_of(bench, tmp_path)["face"]
    assert face["width_mm"] / face["height_mm"] == pytest.approx(640 / 427, rel=0.005)
    assert 10 * round(face["width_mm"] / 10) == face["width_mm"] or face["height_mm"] % 10 == 0
    expect(bench.page.locator(".status-announcement")).to_contain_text("largest round size")
    assert_small_on_a_phone(bench)
    expect(bench.page.locator(".note-stop")).to_have_count(0)
    bench.set("bars.depth_mm", "40")
    take = bench.page.locator("#take-largest-face")
    take.click(timeout=20_000)
    bench.settled()
    smaller = job_of(bench, tmp_path)["face"]
    assert smaller["width_mm"] < face["width_mm"]
    expect(bench.page.locator(".note-stop")).to_have_count(0)
    bench.button("Undo").click()
    bench.settled()
    assert job_of(bench, tmp_path)["face"] == face
