"""The whole job in Chromium: a photograph, an A4 face, 20 mm bars, a 13 x 19 inch sheet, a print file.

The print file is Pyodide's, on a page that opens the job which the other has saved; that page is listened to
as well. In Firefox and WebKitGTK all of it runs in Pyodide (`test_other_browsers.py`).
"""

from __future__ import annotations

import datetime
import io
import json
import math
from collections.abc import Iterator
from contextlib import redirect_stdout
from pathlib import Path

import numpy as np
import pytest
from bench import Bench
from conftest import watched_page
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser, Request, expect

from pycore.cli.main import main

pytestmark = pytest.mark.browser

#: Of print files: a ninth of the pixels that 300 give, and still several strips one below the other.
PRINT_PPI = "100"


@pytest.fixture(scope="module")
def started(
    module_bench: Bench, small_china: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Bench, str]:
    """One page for all tests with the job typed in by hand, and the file of that job."""
    bench = module_bench.start()
    bench.open_picture(small_china)
    bench.opened("china.jpg")
    bench.set("face.width_mm", "297")
    bench.set("face.height_mm", "210")
    bench.set("bars.depth_mm", "20")
    bench.set("sheet.width_mm", "329")
    bench.set("sheet.height_mm", "483")
    return bench, bench.save_job(tmp_path_factory.mktemp("a4")).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def asked() -> list[Request]:
    """Every request of the page with Pyodide and of its workers."""
    return []


@pytest.fixture(scope="module")
def in_pyodide(
    browser: Browser,
    pyodide_site: str,
    demo_picture: bytes,
    asked: list[Request],
    started: tuple[Bench, str],
    china: Path,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Bench]:
    """The same job on the page as it is served, for the files that it writes and what it asks for.

    They are of the whole photograph.
    """
    with watched_page(browser, [], demo_picture, draws_wall=False) as page:
        page.context.on("request", lambda request: asked.append(request))
        bench = Bench(page, pyodide_site).start()
        bench.open_picture(china)
        bench.opened("china.jpg")
        picture = json.loads(bench.save_job(tmp_path_factory.mktemp("whole")).read_text())["picture"]
        open_a4(bench, json.dumps(json.loads(started[1]) | {"picture": picture}), "in Pyodide")
        yield bench


@pytest.fixture
def a4(started: tuple[Bench, str], request: pytest.FixtureRequest) -> Bench:
    """China.jpg (scikit-learn), 160 x 107, on a lying A4 face with 20 mm bars and a 329 x 483 mm sheet."""
    bench, text = started
    bench.page.locator("#unit").get_by_label("mm", exact=True).click()
    bench.scene("Wall")
    open_a4(bench, text, request.node.name.replace("_", " "))
    return bench


def open_a4(bench: Bench, text: str, name: str) -> None:
    """Open the job's file; the name tells that this very one has been opened, whatever was there before."""
    data = json.dumps(json.loads(text) | {"name": name}).encode()
    bench.open_job({"name": "job.json", "mimeType": "application/json", "buffer": data})
    expect(bench.field("name")).to_have_value(name)
    bench.settled()


def tuckfold(*arguments: str) -> str:
    """Run the command line, in this process, and return what it prints."""
    with redirect_stdout(io.StringIO()) as said:
        assert main(arguments) == 0
    return said.getvalue()


def test_consequences_stand_beside_the_controls(a4: Bench, small_china: Path, tmp_path: Path) -> None:
    job = a4.save_job(tmp_path)
    figures = json.loads(tuckfold("layout", str(small_china), "--job", str(job), "--json"))
    # Published: ISO 216. Common practice, no source: a 13 x 19 inch sheet carries an A4 face.
    expect(a4.page.locator("#bars")).to_contain_text("That is A4 (ISO 216)")
    assert figures["fits"] is True
    across, down = (f"{slack:.1f}".removesuffix(".0") for slack in figures["slack_mm"])
    expect(a4.page.locator("#sheet")).to_contain_text(f"{across} mm to spare across, {down} mm down")
    depth = int(figures["largest_depth_mm"] * 10 + 1e-6) / 10
    expect(a4.page.locator('[data-field="bars.depth_mm"]')).to_contain_text(
        f"This sheet holds bars up to {depth:g} mm deep"
    )
    expect(a4.page.locator("#picture")).to_contain_text(
        f"{math.floor(figures['effective_ppi'])} picture pixels per inch on the face"
    )


def test_unfolds_and_folds(a4: Bench) -> None:
    folded = a4.wall_picture()
    a4.page.locator("#fold").fill("0")
    flat = a4.wall_picture()
    assert flat != folded
    a4.page.locator("#fold").fill("0.5")
    half = a4.wall_picture()
    assert half not in (flat, folded)
    a4.page.locator("#fold").fill("1")
    assert a4.wall_picture() == folded


def written_and_native(bench: Bench, picture: Path, word: str, folder: Path) -> tuple[Path, Path]:
    """The print file of the job in hand, once from the page and once from the command line."""
    job = bench.save_job(folder)
    written = bench.write_file(word, folder)
    native = folder / f"native{written.suffix}"
    today = datetime.date.today().isoformat()
    printed = tuckfold(
        "print", str(picture), "--job", str(job), "--out", str(native), "--date", today, "--json"
    )
    figures = json.loads(printed)
    expect(bench.page.locator("#print-report")).to_contain_text(
        f"{figures['width_px']} \N{MULTIPLICATION SIGN} {figures['height_px']}"
    )
    with Image.open(written) as page, Image.open(native) as line:
        assert page.size == line.size == (figures["width_px"], figures["height_px"])
        assert page.mode == line.mode
        assert page.info.get("icc_profile") == line.info.get("icc_profile")
        assert page.info["dpi"] == pytest.approx(line.info["dpi"])
    return written, native


def pixels(file: Path) -> NDArray[np.int16]:
    with Image.open(file) as picture:
        return np.asarray(picture).astype(np.int16)


def test_print_file_is_the_command_lines_pixel_for_pixel(
    in_pyodide: Bench, china: Path, tmp_path: Path
) -> None:
    in_pyodide.set("print.ppi", PRINT_PPI)
    for word in ("TIFF", "PNG"):
        written, native = written_and_native(in_pyodide, china, word, tmp_path)
        assert np.array_equal(pixels(written), pixels(native))


def test_the_job_is_downloaded_as_a_file(a4: Bench, tmp_path: Path) -> None:
    with a4.page.expect_download() as caught:
        a4.button("Save the job").click()
    file = tmp_path / caught.value.suggested_filename
    caught.value.save_as(file)
    assert file.suffix == ".json"
    assert json.loads(file.read_text())["face"] == {"width_mm": 297, "height_mm": 210}


def test_writing_can_be_stopped(a4: Bench) -> None:
    a4.set("print.ppi", "1200")
    a4.button("Save the print file").click()
    a4.button("Stop").click()
    expect(a4.page.locator("#print .write")).to_contain_text("Stopped; no file was saved")
    # And the page goes on working.
    a4.set("bars.depth_mm", "18")


def test_crop_is_moved_and_scaled_on_the_sheet(a4: Bench, tmp_path: Path) -> None:
    a4.scene("Sheet")
    hands = a4.page.locator("#sheet-crop")
    hands.hover()
    a4.page.mouse.wheel(0, -600)
    a4.settled()
    scaled = json.loads(a4.save_job(tmp_path).read_text())["picture"]["crop"]
    assert scaled["width"] < 0.9
    box = hands.bounding_box()
    assert box is not None
    middle = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    a4.page.mouse.move(*middle)
    a4.page.mouse.down()
    for step in range(1, 9):
        a4.page.mouse.move(middle[0] + step * 3, middle[1] + step * 2)
    a4.page.mouse.up()
    a4.settled()
    moved = json.loads(a4.save_job(tmp_path).read_text())["picture"]["crop"]
    assert moved["width"] == pytest.approx(scaled["width"], abs=1e-9)
    assert (moved["x"], moved["y"]) != (scaled["x"], scaled["y"])
    a4.button("Undo").click()
    a4.settled()
    undone = json.loads(a4.save_job(tmp_path).read_text())["picture"]["crop"]
    assert undone == scaled, "a drag is one step"


def test_each_side_its_own_fill(a4: Bench, tmp_path: Path) -> None:
    before = a4.wall_picture()
    a4.page.get_by_text("Give one side its own fill").click()
    a4.page.get_by_text("Left side differs").click()
    a4.settled()
    a4.choose("Left side", "Plain colour")
    job = json.loads(a4.save_job(tmp_path).read_text())
    assert job["sides"]["left"]["fill"] == "plain"
    assert job["sides"]["fill"] == "mirror"
    assert a4.wall_picture() != before


def test_inches(a4: Bench, tmp_path: Path) -> None:
    a4.page.locator("#unit").get_by_label("inch", exact=True).click()
    a4.type_in("face.width_mm", "11 1/2")
    a4.settled()
    expect(a4.field("face.width_mm")).to_have_value("11.5")
    # Published: 1 inch = 25.4 mm. Derived: 11.5 x 25.4.
    assert json.loads(a4.save_job(tmp_path).read_text())["face"]["width_mm"] == pytest.approx(292.1, abs=1e-9)


def test_notes_lead_to_place_and_field(a4: Bench) -> None:
    a4.set("bars.depth_mm", "60")
    note = a4.page.locator(".note-stop").first
    expect(note).to_contain_text("The sheet is too small for the canvas")
    expect(a4.page.locator(".note").first).to_have_class("note note-stop")
    note.get_by_role("button", name="show the sheet").press("Enter")
    expect(a4.page.locator(".sheet-says")).to_contain_text("does not fit")
    note.get_by_role("button", name="Go to").press("Enter")
    focused = a4.page.evaluate("document.activeElement.id")
    assert focused in {"field-wrap-turnover-mm", "field-bars-depth-mm", "field-face-width-mm"}


def test_nothing_has_left_the_machine(in_pyodide: Bench, asked: list[Request]) -> None:
    """With every file saved; the fixture fails too where the page's policy has refused anything."""
    for name in ("Save the client page", "Save the ticket"):
        with in_pyodide.page.expect_download(timeout=60_000):
            in_pyodide.button(name).press("Enter")
    in_pyodide.page.locator("#cutting").scroll_into_view_if_needed()
    in_pyodide.page.wait_for_function("() => document.documentElement.dataset.plan === 'known'")
    # The page, its program and the worker's own requests were heard.
    paths = [one.url.removeprefix(in_pyodide.address) for one in asked]
    assert "" in paths
    assert [one for one in paths if one.startswith("assets/viewer-")]
    assert [one for one in paths if one.startswith("py/snapshot/memory-")]
    assert [one for one in paths if one.startswith("py/rectpack-")]
    assert [one.url for one in asked if not one.url.startswith((in_pyodide.address, "blob:"))] == []
    # Files are only fetched; nothing is handed over, not even in an address.
    assert {one.method for one in asked} == {"GET"}
    assert [one.url for one in asked if "?" in one.url or one.post_data_buffer is not None] == []
