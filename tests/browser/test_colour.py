"""Colour on the page: canvas profile, proof, clip map, intents, bringing in, and the converted print file."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from bench import Bench
from build.debian import NEEDS
from PIL import Image, ImageCms
from playwright.sync_api import Browser, Page, expect
from test_access import violations

pytestmark = pytest.mark.browser

#: Working something out on a busy machine.
WORK_MS = 60_000

#: Notes every call that the page sends to the core.
LISTEN = """
  window.calls = [];
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    if (message.kind === "call") window.calls.push(message.method);
    return post.call(this, message, ...rest);
  };
"""

DROP = """([bytes, name, how]) => {
  const file = new File([new Uint8Array(bytes)], name);
  const data = new DataTransfer();
  data.items.add(file);
  document.body.dispatchEvent(how === "drop"
    ? new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true })
    : new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
}"""


def debian_file(package: str) -> Path:
    """A file that one of Debian's packages brings."""
    return next(Path(need.file) for need in NEEDS if need.package == package)


@pytest.fixture(scope="session")
def cmyk() -> Path:
    """A real printer's profile: Artifex's, free software (AGPL), from Debian's libgs-common."""
    return debian_file("libgs-common")


@pytest.fixture(scope="module")
def at_work(module_bench: Bench, china: Path) -> Bench:
    """A page with a photograph open and the section about colour in view; what it sends is noted."""
    module_bench.page.add_init_script(LISTEN)
    module_bench.start()
    module_bench.open_picture(china)
    module_bench.opened("china.jpg")
    see_colour(module_bench)
    return module_bench


def see_colour(bench: Bench) -> None:
    bench.page.locator("#colour-title").evaluate("one => one.scrollIntoView()")
    # The figures are asked for when the browser has seen that they are in view.
    expect(bench.page.locator("#clip-says")).not_to_contain_text("worked out", timeout=WORK_MS)
    known(bench)


def known(bench: Bench) -> None:
    """Wait until everything known of colour is that of the job in hand."""
    bench.settled()
    bench.page.wait_for_function("document.documentElement.dataset.colour === 'known'", timeout=WORK_MS)


def look_at(bench: Bench, word: str) -> None:
    bench.page.locator("#colour-view").get_by_label(word, exact=True).click()


def calls(page: Page) -> list[str]:
    """What was sent since this was last asked."""
    sent: list[str] = page.evaluate("window.calls.splice(0)")
    return sent


def job_of(bench: Bench, folder: Path) -> dict[str, Any]:
    job: dict[str, Any] = json.loads(bench.save_job(folder).read_text(encoding="utf-8"))
    return job


def open_profile(bench: Bench, file: Path | dict[str, object]) -> None:
    bench.page.locator('input[data-open="profile"]').set_input_files(file)  # type: ignore[arg-type]


def profile_shown(bench: Bench) -> str:
    return bench.page.locator('[data-field="colour.profile"] .measures').inner_text()


def share(bench: Bench, row: str, column: int) -> float:
    """A percentage of the table of parts."""
    cells = bench.page.locator("#clip-parts tbody tr").filter(has_text=row).locator("td")
    text = cells.nth(column).inner_text()
    found = re.search(r"[\d.]+", text)
    assert found, text
    return 0.05 if text.startswith("<") else float(found.group())


def test_the_illustrative_canvas_is_called_one(at_work: Bench) -> None:
    label = "Illustration only: an invented matte canvas, not a measured one."
    section = at_work.page.locator('[data-field="colour.profile"]')
    expect(section).to_contain_text(label)
    look_at(at_work, "As printed")
    expect(at_work.page.locator("#colour-caption")).to_contain_text(label)
    look_at(at_work, "Clip map")
    expect(at_work.page.locator("#colour-caption")).to_contain_text(label)
    look_at(at_work, "As filed")
    expect(at_work.page.locator("#colour-caption")).to_have_count(0)


def test_views_switch_without_a_call(at_work: Bench) -> None:
    page = at_work.page
    known(at_work)
    calls(page)
    for scene, picture in (("Wall", at_work.wall_picture), ("Sheet", lambda: sheet_pixels(page))):
        at_work.scene(scene)  # type: ignore[arg-type]
        seen = []
        for word in ("As filed", "As printed", "Clip map"):
            look_at(at_work, word)
            page.wait_for_timeout(300)
            seen.append(picture())
        assert len(set(seen)) == 3, scene
        look_at(at_work, "As filed")
        page.wait_for_timeout(300)
        assert picture() == seen[0], scene
    at_work.scene("Wall")
    assert calls(page) == []


def sheet_pixels(page: Page) -> bytes:
    text: str = page.locator("canvas.flat-texture").evaluate("one => one.toDataURL()")
    return text.encode()


def test_the_threshold_moves_live(at_work: Bench, tmp_path: Path) -> None:
    page = at_work.page
    look_at(at_work, "Clip map")
    see_colour(at_work)
    before, figures = at_work.wall_picture(), page.locator("#clip-says").inner_text()
    calls(page)
    slider = page.get_by_role("slider", name="Threshold of the clip map, by slider")
    box = slider.bounding_box()
    assert box is not None
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + box["width"] * 2 / 15, middle)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.5, middle, steps=4)
    page.wait_for_timeout(200)
    assert at_work.wall_picture() != before
    expect(page.locator("#clip-scale")).to_contain_text(re.compile(r"7\.\d ΔE00"))
    assert calls(page) == []
    assert page.locator("#clip-says").inner_text() == figures
    page.mouse.up()
    known(at_work)
    assert "clip" in calls(page)
    assert page.locator("#clip-says").inner_text() != figures
    assert job_of(at_work, tmp_path)["colour"]["clip_threshold_de"] == pytest.approx(7.5, abs=0.4)
    at_work.button("Undo").click()
    known(at_work)
    assert page.locator("#clip-says").inner_text() == figures
    look_at(at_work, "As filed")


def test_groups_light_up_and_go_out(at_work: Bench) -> None:
    page = at_work.page
    see_colour(at_work)
    before = at_work.wall_picture()
    button = page.get_by_role("button", name=re.compile("^Light up ")).first
    button.click()
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#colour-lit")).to_contain_text("Lit up")
    assert at_work.wall_picture() != before
    page.keyboard.press("Escape")
    expect(button).to_have_attribute("aria-pressed", "false")
    expect(page.locator("#colour-lit")).to_have_count(0)
    at_work.scene("Sheet")
    page.wait_for_timeout(300)
    plain = sheet_pixels(page)
    button.click()
    page.wait_for_timeout(500)
    assert sheet_pixels(page) != plain
    page.get_by_role("button", name="Put it out").click()
    page.wait_for_timeout(300)
    assert sheet_pixels(page) == plain
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
    taken = page.locator('#intents tbody[data-taken="true"]')
    expect(taken).to_have_count(1)
    expect(taken).to_contain_text("Relative colorimetric with black point compensation")
    rows.nth(0).get_by_role("button").click()
    known(at_work)
    expect(taken).to_have_count(1)
    expect(rows.nth(0)).to_have_attribute("data-taken", "true")
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
    at_work.set("colour.bring_in", "100")
    known(at_work)
    assert job_of(at_work, tmp_path)["colour"]["bring_in"] == 1
    assert share(at_work, "Face", 0) <= 0.5
    assert share(at_work, "Face", 4) == before
    look_at(at_work, "As printed")
    page.wait_for_timeout(300)
    calls(page)
    now = at_work.wall_picture()
    hold = page.locator("#hold-before")
    hold.scroll_into_view_if_needed()
    box = hold.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 20, box["y"] + 10)
    page.mouse.down()
    expect(page.locator("#colour-caption")).to_contain_text("before bringing in")
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
    look_at(at_work, "As filed")


def test_white_and_black_are_simulated_or_not(at_work: Bench, tmp_path: Path) -> None:
    look_at(at_work, "As printed")
    job = job_of(at_work, tmp_path)
    seen = set()
    for word in ("Neither", "Black only", "White and black"):
        at_work.page.locator("#viewing").get_by_label(word, exact=True).click()
        known(at_work)
        at_work.page.wait_for_timeout(300)
        seen.add(at_work.wall_picture())
    assert len(seen) == 3
    assert job_of(at_work, tmp_path) == job
    look_at(at_work, "As filed")


def test_the_solid_is_drawn_and_told(at_work: Bench) -> None:
    page = at_work.page
    page.get_by_text("The canvas's gamut as a solid").click()
    said = page.locator("#solid-says")
    expect(said).to_contain_text(re.compile(r"Of the [\d,]+ colours shown"), timeout=WORK_MS)
    expect(page.locator(".solid canvas")).to_be_visible()
    page.get_by_text("The canvas's gamut as a solid").click()
    expect(page.locator(".solid")).to_have_count(0)


def test_the_screen_is_spoken_of(at_work: Bench) -> None:
    said = at_work.page.locator("#screen-says")
    expect(said).to_contain_text("not calibrated cannot judge colour")
    expect(said).to_contain_text(re.compile("this screen shows .*drawn in sRGB"))


def test_a_profile_is_opened_and_a_bad_one_refused(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    see_colour(at_work)
    invented = page_figures(at_work)
    look_at(at_work, "As printed")
    wall = at_work.wall_picture()
    open_profile(at_work, cmyk)
    expect(at_work.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    known(at_work)
    shown = profile_shown(at_work)
    assert "CMYK printer" in shown
    assert page_figures(at_work) != invented
    assert at_work.wall_picture() != wall
    expect(at_work.page.locator("#colour-caption")).to_contain_text("Artifex CMYK SWOP Profile")
    expect(at_work.page.locator("#colour-caption")).not_to_contain_text("Illustration")
    job = job_of(at_work, tmp_path)
    assert job["colour"]["profile"] == "default_cmyk.icc"

    whole = cmyk.read_bytes()
    mutated = whole[:36] + b"nope" + whole[40:]
    for name, data, said in (
        ("cut.icc", whole[: len(whole) // 2], "bytes"),
        ("wrong.icc", mutated, "acsp"),
        ("empty.icc", b"", "bytes"),
        ("letter.icm", b"Dear printer, this is no profile.\n" * 20, ""),
    ):
        open_profile(at_work, {"name": name, "mimeType": "", "buffer": data})
        message = at_work.message("colour.profile")
        expect(message).to_contain_text("expected")
        expect(message).to_contain_text(said)
        assert profile_shown(at_work) == shown, name
        assert job_of(at_work, tmp_path) == job, name

    at_work.button("Take the illustrative canvas").click()
    known(at_work)
    expect(at_work.message("colour.profile")).to_have_count(0)
    assert page_figures(at_work) == invented
    at_work.button("Undo").click()
    known(at_work)
    assert profile_shown(at_work) == shown
    at_work.button("Undo").click()
    known(at_work)
    assert page_figures(at_work) == invented
    look_at(at_work, "As filed")


def page_figures(bench: Bench) -> str:
    return bench.page.locator("#clip-parts").inner_text()


def test_a_screens_profile_is_none_of_a_canvas(at_work: Bench, tmp_path: Path) -> None:
    before = job_of(at_work, tmp_path)
    open_profile(at_work, debian_file("icc-profiles-free"))
    expect(at_work.message("colour.profile")).to_contain_text("printer", timeout=WORK_MS)
    assert job_of(at_work, tmp_path) == before


def test_two_profiles_of_one_name_are_told_apart(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    whole = cmyk.read_bytes()
    # The date in the header: another file, the same colours.
    other = whole[:24] + b"\x07\xe5" + whole[26:]
    assert other != whole
    names = []
    for data in (whole, other, whole):
        open_profile(at_work, {"name": "default_cmyk.icc", "mimeType": "", "buffer": data})
        at_work.page.wait_for_timeout(300)
        expect(at_work.page.locator('[data-field="colour.profile"] [role="status"]')).not_to_contain_text(
            "Reading", timeout=WORK_MS
        )
        known(at_work)
        names.append(job_of(at_work, tmp_path)["colour"]["profile"])
    assert names == ["default_cmyk.icc", "default_cmyk (2).icc", "default_cmyk.icc"]


def test_a_converted_file_holds_the_canvas_profile(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    open_profile(at_work, cmyk)
    expect(at_work.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    at_work.page.locator("#field-print-convert").get_by_label("Convert to the canvas's", exact=True).click()
    known(at_work)
    words = at_work.page.locator('[data-field="print.convert"]')
    expect(words).to_contain_text("must not be converted again")
    expect(at_work.page.locator("#convert-warning")).to_have_count(0)
    at_work.set("print.ppi", "72")
    written = at_work.write_file("TIFF", tmp_path)
    with Image.open(written) as image:
        assert image.mode == "CMYK"
        embedded: bytes = image.info["icc_profile"]
    assert embedded == cmyk.read_bytes()
    assert ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(embedded))).strip() == (
        "Artifex CMYK SWOP Profile"
    )
    at_work.button("Take the illustrative canvas").click()
    known(at_work)
    expect(at_work.page.locator("#convert-warning")).to_contain_text("No printer has these values")


@pytest.mark.parametrize("how", ["drop", "paste"])
def test_a_profile_is_dropped_or_pasted(bench: Bench, cmyk: Path, how: str) -> None:
    bench.start()
    bench.page.evaluate(DROP, [list(cmyk.read_bytes()), "matte.icc", how])
    expect(bench.page.locator(".measures strong")).to_have_text("Artifex CMYK SWOP Profile", timeout=WORK_MS)
    # The demo is still the demo, and its picture still open.
    expect(bench.page.locator(".facts strong")).to_have_text("estuary.jpg")


def test_a_reload_and_a_dead_core_keep_the_profile(bench: Bench, china: Path, cmyk: Path) -> None:
    bench.start()
    # Opened while the demo was in hand, it goes with the picture of one's own.
    open_profile(bench, cmyk)
    expect(bench.page.locator(".measures strong")).to_have_text("Artifex CMYK SWOP Profile", timeout=WORK_MS)
    bench.open_picture(china)
    bench.opened("china.jpg")
    see_colour(bench)
    look_at(bench, "As printed")
    shown, figures, wall = profile_shown(bench), page_figures(bench), bench.wall_picture()
    bench.page.wait_for_timeout(600)  # Changes are kept a quarter of a second after the last.

    bench.page.workers[0].evaluate("setTimeout(() => { throw new Error('a fault in the core') }, 0)")
    expect(bench.page.locator(".status-quiet")).to_contain_text("started again", timeout=30_000)
    expect(bench.page.locator("#loading-progress")).to_have_count(0, timeout=120_000)
    bench.set("colour.clip_threshold_de", "3")
    known(bench)
    assert page_figures(bench) != figures
    assert profile_shown(bench) == shown
    bench.button("Undo").click()
    known(bench)
    bench.page.wait_for_timeout(600)

    bench.page.reload()
    bench.wait_shown()
    bench.opened("china.jpg")
    see_colour(bench)
    assert (profile_shown(bench), page_figures(bench)) == (shown, figures)
    look_at(bench, "As printed")
    assert bench.wall_picture() == wall


def test_a_job_whose_profile_is_not_here_says_so(bench: Bench, cmyk: Path, tmp_path: Path) -> None:
    bench.start()
    job = job_of(bench, tmp_path)
    job["colour"]["profile"] = "studio.icc"
    text = json.dumps(job).encode()
    bench.open_job({"name": "job.json", "mimeType": "application/json", "buffer": text})
    look_at(bench, "As printed")
    section = bench.page.locator('[data-field="colour.profile"]')
    expect(section.locator(".message")).to_contain_text("studio.icc", timeout=WORK_MS)
    expect(bench.page.locator("#colour-caption")).to_contain_text("As filed: there is no proof")
    open_profile(bench, {"name": "studio.icc", "mimeType": "", "buffer": cmyk.read_bytes()})
    expect(bench.page.locator("#colour-caption")).to_contain_text("Artifex", timeout=WORK_MS)
    expect(section.locator(".message")).to_have_count(0)


def test_a_picture_in_a_wider_space_is_brought_to_the_screen(bench: Bench, china: Path) -> None:
    """The same numbers in a wider space are other colours; as filed shows them by its own table."""
    profile = debian_file("icc-profiles-free").read_bytes()
    files = {}
    for name, icc in (("plain.png", b""), ("wide.png", profile)):
        out = io.BytesIO()
        with Image.open(china) as image:
            image.save(out, "PNG", icc_profile=icc or None)
        files[name] = out.getvalue()
    bench.start()
    walls = []
    for name, data in files.items():
        bench.open_picture({"name": name, "mimeType": "image/png", "buffer": data})
        bench.opened(name)
        known(bench)
        walls.append(bench.wall_picture())
    assert walls[0] != walls[1]
    bench.button("Undo").click()
    bench.opened("plain.png")
    known(bench)
    assert bench.wall_picture() == walls[0]


def test_the_tables_come_after_the_first_canvas(bench: Bench) -> None:
    bench.page.add_init_script(LISTEN)
    bench.page.add_init_script(
        """new MutationObserver(() => {
          if (document.documentElement.dataset.state === "shown") window.atShown ??= [...window.calls];
        }).observe(document, { attributes: true, subtree: true });"""
    )
    bench.start()
    bench.page.wait_for_function("window.calls.includes('look')", timeout=WORK_MS)
    assert bench.page.evaluate("window.atShown") == ["check", "open", "show"]


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1440, 900), (360, 780)])
def test_axe_finds_nothing(browser: Browser, site: str, theme: Any, width: int, height: int) -> None:
    with browser.new_context(
        viewport={"width": width, "height": height}, color_scheme=theme, reduced_motion="reduce"
    ) as context:
        bench = Bench(context.new_page(), site).start()
        see_colour(bench)
        bench.page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
        expect(bench.page.locator("#solid-says")).to_contain_text("colours shown", timeout=WORK_MS)
        bench.button("Compare the intents on this picture").click()
        expect(bench.page.locator("#intents")).to_be_visible(timeout=WORK_MS)
        bench.set("colour.bring_in", "20")
        bench.choose("Colours in the file", "Convert to the canvas's")
        open_profile(bench, {"name": "bad.icc", "mimeType": "", "buffer": b"no profile"})
        expect(bench.message("colour.profile")).to_be_visible()
        look_at(bench, "Clip map")
        bench.page.get_by_role("button", name=re.compile("^Light up ")).first.click()
        known(bench)
        assert violations(bench.page) == [], "with the wall"
        bench.scene("Sheet")
        look_at(bench, "As printed")
        assert violations(bench.page) == [], "with the sheet"
        assert bench.page.evaluate("document.documentElement.scrollWidth") <= width
        assert bench.page.locator("#work").evaluate("one => one.scrollWidth <= one.clientWidth")
