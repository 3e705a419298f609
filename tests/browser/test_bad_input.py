"""What is wrong is said beside the field, and the job in hand stays as it was."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from bench import Bench, refusal
from playwright.sync_api import FilePayload, Page, expect

from pycore.errors import PictureError
from pycore.progress import run_to_end
from pycore.tasks.open_picture import open_picture

pytestmark = pytest.mark.browser

#: The flat canvas shows what is in hand as the 3D view would.
WITHOUT_WALL = True


@pytest.fixture(scope="module")
def at_work(module_bench: Bench, china: Path) -> Bench:
    """A page with a photograph open; refused input must leave it as it is, so one page serves all."""
    module_bench.start()
    module_bench.open_picture(china)
    module_bench.opened("china.jpg")
    return module_bench


@pytest.fixture(scope="module")
def canvas(at_work: Bench) -> bytes:
    """The flat canvas before anything is refused."""
    return at_work.sheet_picture()


def job_text(bench: Bench, folder: Path) -> str:
    return bench.save_job(folder).read_text(encoding="utf-8")


def file(name: str, data: bytes) -> FilePayload:
    return {"name": name, "mimeType": "image/jpeg", "buffer": data}


def bad_pictures(china: Path) -> dict[str, FilePayload]:
    whole = china.read_bytes()
    return {
        "zero bytes": file("empty.jpg", b""),
        "text": file("letter.jpg", b"Dear printer, please find enclosed no picture at all.\n" * 40),
        "cut short": file("cut.jpg", whole[: len(whole) // 3]),
        "another kind within": file("pictures.jpg", b"PK\x03\x04" + bytes(4000)),
    }


@pytest.mark.parametrize("kind", ["zero bytes", "text", "cut short", "another kind within"])
def test_files_that_are_no_pictures(
    at_work: Bench, canvas: bytes, china: Path, tmp_path: Path, kind: str
) -> None:
    before = job_text(at_work, tmp_path)
    bad = bad_pictures(china)[kind]
    at_work.open_picture(bad)
    # The core's own sentence, word for word; how many bytes are left over depends on the decoder's build.
    with pytest.raises(PictureError) as why:
        run_to_end(open_picture(bad["buffer"], file=bad["name"]))
    sentence = re.sub(r"\d+(?=\\ bytes\\ not\\ processed)", r"\\d+", re.escape(refusal(why.value)))
    expect(at_work.message("picture.file")).to_have_text(re.compile(f"^{sentence}$"))
    at_work.settled()
    expect(at_work.page.locator(".facts strong")).to_have_text("china.jpg")
    assert job_text(at_work, tmp_path) == before
    assert at_work.sheet_picture() == canvas


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("face.width_mm", "1e9", "a length in mm"),
        ("face.width_mm", "999999999", "50 to 5000 mm"),
        ("face.width_mm", "NaN", "a length in mm"),
        ("face.height_mm", "Infinity", "a length in mm"),
        ("face.height_mm", "", "nothing"),
        ("bars.depth_mm", "-5", "6 to 100 mm"),
        ("bars.depth_mm", "thirty-eight", "a length in mm"),
        ("wrap.turnover_mm", "3", "0 to the turn-over of 3 mm"),
        ("print.ppi", "0", "36 to 1440"),
        ("canvas.stretch_percent.0", "90", "-5 to 15"),
    ],
)
def test_numbers_that_cannot_be(at_work: Bench, tmp_path: Path, field: str, text: str, said: str) -> None:
    before = job_text(at_work, tmp_path)
    at_work.page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
    at_work.type_in(field, text)
    at_work.settled()
    expect(at_work.message(field)).to_contain_text(said)
    expect(at_work.field(field)).to_have_value(text)
    expect(at_work.field(field)).to_have_attribute("aria-invalid", "true")
    assert job_text(at_work, tmp_path) == before
    at_work.field(field).press("Escape")
    expect(at_work.message(field)).to_have_count(0)
    assert at_work.field(field).input_value() != text


def test_an_error_goes_with_what_was_typed(at_work: Bench) -> None:
    """What else changes the value, or brings another job, takes the draft away and its message with it."""
    bench = at_work
    height = bench.field("face.height_mm").input_value()
    for replace in ("Swap width and height", "Undo"):
        bench.type_in("face.height_mm", "3")
        expect(bench.message("face.height_mm")).to_contain_text("you gave 3")
        bench.button(replace).press("Enter")
        expect(bench.message("face.height_mm")).to_have_count(0)
    expect(bench.field("face.height_mm")).to_have_value(height)
    # The list shows what is loaded, whatever was tried in it.
    sizes = bench.page.locator("#sheet-known")
    loaded = sizes.input_value()
    sizes.select_option(label="Own size")
    expect(sizes).to_have_value(loaded)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "a JSON object"),
        ("[1, 2]", "a JSON object"),
        ('{"face": {"width_mm": 200, "wdith_mm": 3}}', "wdith_mm"),
        ('{"bars": {"depth_mm": NaN}}', "depth"),
        ('{"version": 7}', "2"),
        ('{"__proto__": {"width_mm": 3}}', "__proto__"),
        ('{"toString": 1}', "toString"),
    ],
)
def test_job_files_that_are_none(at_work: Bench, tmp_path: Path, text: str, said: str) -> None:
    before = job_text(at_work, tmp_path)
    at_work.open_job({"name": "job.json", "mimeType": "application/json", "buffer": text.encode()})
    expect(at_work.message("job")).to_contain_text(said)
    at_work.settled()
    assert job_text(at_work, tmp_path) == before


def test_a_fill_the_picture_is_too_small_for(at_work: Bench, tmp_path: Path) -> None:
    """A side deeper than the picture beside it: whatever becomes of it, the page says so and goes on."""
    tiny = at_work.page.evaluate(
        """async () => {
          const canvas = new OffscreenCanvas(3, 2);
          canvas.getContext("2d").fillRect(0, 0, 3, 2);
          return [...new Uint8Array(await (await canvas.convertToBlob()).arrayBuffer())];
        }"""
    )
    at_work.open_picture({"name": "tiny.png", "mimeType": "image/png", "buffer": bytes(tiny)})
    page: Page = at_work.page
    answer = page.locator('[data-field="picture.file"] .error-text, .note-watch, .note-stop')
    expect(answer.first).to_be_visible(timeout=30_000)
    at_work.settled()
    json.loads(job_text(at_work, tmp_path))
