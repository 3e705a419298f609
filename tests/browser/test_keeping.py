"""The work in hand survives: undo and redo, a reload, another tab, and the death of the core.

The tests of the first page come in the order in which they stand here: each goes on with what the one before
has left. One long file, because that page serves them all.
"""

from __future__ import annotations

import hashlib
import io
import json
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest
from bench import CHANGE_MS, Bench, saved
from colour_bench import hand_over
from PIL import Image
from playwright.sync_api import FilePayload, Locator, expect

pytestmark = pytest.mark.browser

#: What is kept is seen on the sheet.
WITHOUT_WALL = True


def small_png() -> bytes:
    """A picture of 240 x 160 pixels with a slope of greys."""
    out = io.BytesIO()
    Image.linear_gradient("L").resize((240, 160)).convert("RGB").save(out, format="PNG")
    return out.getvalue()


def job_of(bench: Bench, folder: Path) -> dict[str, Any]:
    job: dict[str, Any] = json.loads(bench.save_job(folder).read_text(encoding="utf-8"))
    return job


#: What an earlier version of the page kept, put where it kept it.
KEPT_BEFORE = """async ([job, name, bytes]) => {
  const answer = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const opening = indexedDB.open("keyval-store");
  opening.onupgradeneeded = () => opening.result.createObjectStore("keyval");
  const database = await answer(opening);
  const into = database.transaction("keyval", "readwrite").objectStore("keyval");
  into.put({ name, blob: new Blob([new Uint8Array(bytes)]) }, "picture:abc");
  await answer(into.put({ job, picture: "picture:abc", words: "Before." }, "work"));
  database.close();
}"""

#: A browser whose storage takes requests and never answers.
NO_ANSWER = "indexedDB.open = () => Object.assign(new EventTarget(), { readyState: 'pending' })"


@pytest.fixture(scope="module")
def demo(module_bench: Bench) -> Bench:
    """One page for the tests that leave their job behind; they come in the order in which they stand here."""
    return module_bench.start()


def text_file(text: str) -> FilePayload:
    return {"name": "job.json", "mimeType": "application/json", "buffer": text.encode()}


def png_file(name: str) -> FilePayload:
    return {"name": name, "mimeType": "image/png", "buffer": small_png()}


def list_of_jobs(bench: Bench) -> Locator:
    bench.button("Jobs").press("Enter")
    expect(bench.page.locator("#jobs h2")).to_be_visible()
    return bench.page.locator("#jobs li")


def in_list(bench: Bench, action: str, name: str) -> None:
    """Press a button of a job in the list, which is open."""
    bench.page.get_by_role("button", name=f"{action}: {name}", exact=True).first.press("Enter")


def test_a_job_without_its_picture_is_empty(demo: Bench, tmp_path: Path) -> None:
    """The demo's picture must not take its place; another of the same name is only offered."""
    bench, page = demo, demo.page
    job = job_of(bench, tmp_path)
    own = small_png()
    job["picture"] = {
        "file": "lost.png",
        "sha256": hashlib.sha256(own).hexdigest(),
        "turn": 0,
        "enlarging": "photograph",
    }
    stage = page.locator(".stage-picture")
    drawn = stage.screenshot()
    says = page.locator("#clip-says")
    says.scroll_into_view_if_needed()
    expect(says).to_contain_text("out of gamut")
    bench.open_job(text_file(json.dumps(job)))
    lacking = page.locator("#picture-lacking")
    expect(lacking).to_contain_text("lost.png")
    assert stage.screenshot() != drawn
    expect(page.locator("#use-picture")).to_have_count(0)
    for choice in ("sides-fill", "wrap-finish", "colour-intent"):
        field = page.locator(".field", has=page.locator(f"#field-{choice}"))
        expect(field).to_contain_text("there is nothing to draw")
        expect(field.locator("canvas")).to_have_count(0)
    # The figures were those of the picture before.
    expect(says).to_have_text("The picture of this job is not open, so there are no figures.")
    expect(page.locator("#clip-parts")).to_have_count(0)
    bench.button("Save the print file").click()
    expect(page.locator("#print .error-text")).to_contain_text("The picture of this job is not open")
    page.get_by_role("button", name="Save the client page").click()
    expect(page.locator("#client-page .error-text")).to_contain_text("The picture of this job is not open")
    # Another picture of the same name is only offered; its own opens at once.
    wrong = io.BytesIO()
    Image.new("RGB", (60, 40), (10, 90, 40)).save(wrong, format="PNG")
    bench.open_picture({"name": "lost.png", "mimeType": "image/png", "buffer": wrong.getvalue()})
    expect(lacking).to_contain_text("same name, but other content")
    expect(page.locator("#use-picture")).to_be_visible()
    bench.open_picture(png_file("lost.png"))
    expect(lacking).to_have_count(0)
    bench.opened("lost.png")
    expect(page.locator(".error-text")).to_have_count(0)
    assert job_of(bench, tmp_path) == job


def test_another_picture_is_used_when_the_person_says_so(demo: Bench, tmp_path: Path) -> None:
    bench = demo
    job = job_of(bench, tmp_path)
    job["picture"] = {"file": "gone.jpg", "sha256": "0" * 64, "turn": 0}
    bench.open_job(text_file(json.dumps(job)))
    bench.page.locator("#use-picture").click()
    expect(bench.page.locator("#picture-lacking")).to_have_count(0)
    bench.opened("lost.png")
    assert job_of(bench, tmp_path)["picture"]["sha256"] == hashlib.sha256(small_png()).hexdigest()
    bench.button("Undo").click()
    expect(bench.page.locator("#picture-lacking")).to_contain_text("gone.jpg")


def test_a_new_job_begins_empty_and_its_first_picture_gets_the_largest_face(
    demo: Bench, small_china: Path, tmp_path: Path
) -> None:
    bench = demo
    list_of_jobs(bench)
    bench.button("New job").press("Enter")
    expect(bench.page.locator("#picture-lacking")).to_contain_text("names no picture")
    bench.open_picture(small_china)
    bench.opened("china.jpg")
    # Derived: the picture is 160 x 107 pixels; half a millimetre of the shorter side is under 0.3 percent.
    face = job_of(bench, tmp_path)["face"]
    assert face["width_mm"] / face["height_mm"] == pytest.approx(160 / 107, rel=0.005)
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


def test_undo_brings_the_former_picture_back(demo: Bench) -> None:
    bench = demo
    drawn = bench.sheet_picture()
    bench.open_picture(png_file("slope.png"))
    bench.opened("slope.png")
    bench.button("Undo").click()
    bench.opened("china.jpg")
    assert bench.sheet_picture() == drawn


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


def test_a_job_is_saved_and_opened(demo: Bench, small_china: Path, tmp_path: Path) -> None:
    bench = demo
    bench.set("bars.depth_mm", "24")
    saved = bench.save_job(tmp_path)
    bench.set("bars.depth_mm", "44")
    bench.open_job(saved)
    expect(bench.field("bars.depth_mm")).to_have_value("24")
    sha256 = hashlib.sha256(small_china.read_bytes()).hexdigest()
    expected = {"file": "china.jpg", "sha256": sha256, "turn": 0, "enlarging": "photograph"}
    assert json.loads(saved.read_text())["picture"] == expected
    expect(bench.page.locator("#picture-lacking")).to_have_count(0)


def test_undo_and_redo_by_keys_and_buttons(demo: Bench, small_china: Path, tmp_path: Path) -> None:
    bench = demo
    bench.open_picture(small_china)
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


def test_dropped_and_pasted_pictures(demo: Bench, small_china: Path) -> None:
    bench = demo
    for how in ("drop", "paste"):
        file = FilePayload(name=f"{how}.jpg", mimeType="image/jpeg", buffer=small_china.read_bytes())
        hand_over(bench.page, file, how)
        bench.opened(f"{how}.jpg")


def test_what_is_changed_in_the_moment_of_a_reload_is_kept(
    demo: Bench, small_china: Path, tmp_path: Path
) -> None:
    """A picture, and a change that the core has not answered; with them words, undo and the comparison."""
    bench, page = demo, demo.page
    bench.open_picture(small_china)
    bench.opened("china.jpg")
    bench.set("bars.depth_mm", "27")
    page.get_by_label("A few words to the client").fill("See the sides.")
    old = job_of(bench, tmp_path) | {"name": "Kept before"}
    old["picture"] = old["picture"] | {"file": "old.png", "sha256": hashlib.sha256(small_png()).hexdigest()}
    page.evaluate(KEPT_BEFORE, [json.dumps(old), "old.png", list(small_png())])
    bench.open_picture(png_file("small.png"))
    bench.opened("small.png")
    page.get_by_role("button", name="Compare depths").press("Enter")
    expect(page.locator("html")).to_have_attribute("data-compare", "shown", timeout=CHANGE_MS)
    before = job_of(bench, tmp_path)
    bench.type_in("bars.depth_mm", "31")
    page.reload()
    bench.wait_shown()
    bench.opened("small.png")
    before["bars"]["depth_mm"] = 31
    assert job_of(bench, tmp_path) == before
    expect(page.get_by_label("A few words to the client")).to_have_value("See the sides.")
    expect(page.locator("html")).to_have_attribute("data-compare", "shown", timeout=CHANGE_MS)
    page.locator("#compare").get_by_role("button", name="End the comparison").press("Enter")
    bench.button("Undo").click()
    bench.settled()
    expect(bench.field("bars.depth_mm")).to_have_value("27")
    bench.button("Undo").click()
    bench.opened("china.jpg")
    bench.button("Redo").click()
    bench.opened("small.png")


def test_what_an_earlier_version_kept_opens_as_a_job(demo: Bench, tmp_path: Path) -> None:
    """It was put there before the page was loaded anew."""
    bench = demo
    expect(list_of_jobs(bench).filter(has_text="Kept before")).to_have_count(1)
    in_list(bench, "Open", "Kept before")
    bench.opened("old.png")
    assert job_of(bench, tmp_path)["name"] == "Kept before"
    expect(bench.page.get_by_label("A few words to the client")).to_have_value("Before.")


#: What could be pressed, ticked, chosen or typed in the two sections that hold nothing but the job.
FREE_CONTROLS = """() => [...document.querySelectorAll("#picture *, #sides *")]
  .filter((one) => one.matches("button, input, select, textarea, [role=group][tabindex]"))
  .filter((one) => !one.matches(":disabled") && !one.readOnly)
  .map((one) => one.outerHTML)"""


def test_a_second_tab_shows_the_job_and_says_so(demo: Bench, tmp_path: Path) -> None:
    bench = demo
    bench.set("bars.depth_mm", "33")
    bench.kept("job.bars.depth_mm === 33")
    page = bench.page.context.new_page()
    other = Bench(page, bench.address).start()
    other.opened("old.png")
    notice = page.locator("#read-only")
    expect(notice).to_contain_text("open in another tab")
    expect(other.field("bars.depth_mm")).to_have_value("33")
    # Entries, sliders and choices of the job look and are fixed, and say by the notice why.
    depth = other.field("bars.depth_mm")
    expect(depth).to_have_js_property("readOnly", True)
    expect(depth).to_have_attribute("aria-describedby", re.compile(r"\bread-only$"))
    depth.press("ArrowUp")
    expect(depth).to_have_value("33")
    # What the first tab changes is shown here too.
    for value in ("34", "33"):
        bench.set("bars.depth_mm", value)
        expect(depth).to_have_value(value)
    expect(page.locator('[data-field="bars.depth_mm"] .slider')).to_be_disabled()
    expect(page.locator('input[name="field-wrap-finish"]').first).to_be_disabled()
    assert page.evaluate(FREE_CONTROLS) == []
    for control in ("#sheet-known", "#field-canvas-coated", "#field-print-marks", "#take-answer"):
        expect(page.locator(control)).to_be_disabled()
    expect(page.locator("#field-plan-copies")).to_have_js_property("readOnly", False)
    other.open_picture(png_file("wrong.png"))
    expect(other.message("picture.file")).to_contain_text("open in another tab")
    notice.get_by_role("button", name="Open a copy").press("Enter")
    expect(notice).to_have_count(0)
    expect(depth).to_have_js_property("readOnly", False)
    expect(page.locator(".current-job-name")).to_have_text("Kept before (copy)")
    other.set("bars.depth_mm", "36")
    other.kept("job.bars.depth_mm === 36 && job.name === 'Kept before (copy)'")
    bench.kept("job.bars.depth_mm === 33 && job.name === 'Kept before'")
    # A job that is open elsewhere is not deleted, and comes to this tab when the other lets go of it.
    list_of_jobs(other)
    in_list(other, "Delete", "Kept before")
    other.button("Delete this job").press("Enter")
    expect(page.locator("#jobs .error-text")).to_contain_text("open in another tab")
    in_list(other, "Open", "Kept before")
    expect(notice).to_be_visible()
    list_of_jobs(bench)
    in_list(bench, "Open", "small")
    bench.opened("small.png")
    expect(notice).to_have_count(0)
    other.set("bars.depth_mm", "37")
    assert job_of(other, tmp_path)["bars"]["depth_mm"] == 37
    page.close()


def test_a_kept_job_is_saved_as_a_bundle_and_deleted(demo: Bench, tmp_path: Path) -> None:
    bench = demo
    lines = list_of_jobs(bench)
    count = lines.count()
    with bench.page.expect_download() as caught:
        in_list(bench, "Save the bundle", "Kept before")
    with zipfile.ZipFile(saved(caught.value, tmp_path)) as bundle:
        assert bundle.read("picture/old.png") == small_png()
        assert json.loads(bundle.read("bundle.json"))["job"]["bars"]["depth_mm"] == 37
    in_list(bench, "Delete", "Kept before")
    # Enter, pressed once more by mistake, deletes nothing.
    expect(bench.button("Keep it")).to_be_focused()
    bench.button("Delete this job").press("Enter")
    expect(lines).to_have_count(count - 1)
    # Behind the dialog the page's own announcement would not be heard.
    expect(bench.page.locator("#jobs [role=status]")).to_contain_text("was deleted")
    # A picture that is taller than its line stays in it.
    tall = """(place) => {
      place.querySelector("img").height = 400;
      return place.scrollHeight - place.clientHeight;
    }"""
    assert bench.page.locator(".job-line-picture:has(img)").first.evaluate(tall) == 0
    bench.button("Close").press("Enter")


@pytest.mark.parametrize(
    "death",
    ["setTimeout(() => { throw new Error('a fault in the core') }, 0)", "self.close()"],
    ids=["uncaught error", "ended"],
)
def test_a_dead_core_is_started_again(demo: Bench, tmp_path: Path, death: str) -> None:
    bench = demo
    bench.set("bars.depth_mm", "29" if "close" in death else "27")
    before, drawn = job_of(bench, tmp_path), bench.sheet_picture()
    bench.page.get_by_role("button", name="Close the message").or_(bench.button("Jobs")).first.focus()
    bench.page.workers[0].evaluate(death)
    expect(bench.page.locator(".status-announcement")).to_contain_text("started again", timeout=30_000)
    expect(bench.page.locator("#loading-progress")).to_have_count(0, timeout=120_000)
    bench.settled()
    assert job_of(bench, tmp_path) == before
    assert bench.sheet_picture() == drawn
    bench.set("bars.depth_mm", "30")


def test_a_browser_without_storage_starts_and_says_so(bench: Bench) -> None:
    bench.page.add_init_script(NO_ANSWER)
    bench.start()
    expect(bench.page.locator("#not-kept")).to_contain_text("no storage")
    expect(bench.page.locator("html")).to_have_attribute("data-keeping", "none")
    bench.set("bars.depth_mm", "27")


def assert_small_on_a_phone(bench: Bench) -> None:
    """The announcement covers neither canvas nor controls nor notes, stays small, and can be closed."""
    page = bench.page
    wide = page.viewport_size
    assert wide is not None
    page.set_viewport_size({"width": 390, "height": 844})
    boxes = (".status-said", ".stage-picture", ".stage-controls")
    said, canvas, controls = (page.locator(one).bounding_box() for one in boxes)
    assert said is not None
    assert canvas is not None
    assert controls is not None
    assert canvas["y"] + canvas["height"] <= said["y"]
    assert said["y"] + said["height"] <= controls["y"]
    # Derived: two lines of 0.78 x 16 x 1.3 px, twice 0.3 x 16 px around them, and a line of 1 px.
    assert said["height"] <= 2 * 16.3 + 9.7 + 1
    page.get_by_role("button", name="Close the message").click()
    expect(page.locator(".status-announcement")).to_be_empty()
    page.set_viewport_size(wide)
