"""How the print file's pixels are made is chosen on the page: enlarging, bits a channel, sharpening."""

from __future__ import annotations

import io
import json
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest
import tifffile
from bench import Bench
from playwright.sync_api import FilePayload, expect

from tests.pycore.printing.pdf import outside

_SIZE = (240, 320)

#: The 3D view has no part in it.
WITHOUT_WALL = True

Pixels = npt.NDArray[np.uint16]


def _ramp() -> Pixels:
    """A grey ramp of 16 bits, with hard bars for sharpening to work on."""
    rows, columns = np.mgrid[0 : _SIZE[0], 0 : _SIZE[1]]
    ramp = 20000 + columns * 37 + rows * 3
    return np.where((rows > 180) & (columns // 6 % 2 == 0), 60000, ramp).astype(np.uint16)


@pytest.fixture(scope="module")
def at_work(module_bench: Bench) -> Bench:
    file = io.BytesIO()
    tifffile.imwrite(file, _ramp(), photometric="minisblack", metadata=None)
    module_bench.start()
    module_bench.open_picture(FilePayload(name="ramp.tif", mimeType="image/tiff", buffer=file.getvalue()))
    module_bench.opened("ramp.tif")
    return module_bench


def _canvas(bench: Bench, label: str) -> tuple[list[int], float]:
    """The pixels of a picture in the column, and how many of the screen's each of them takes."""
    found: tuple[list[int], float] = bench.page.get_by_role("img", name=label, exact=True).evaluate(
        """canvas => [
            [...canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data],
            canvas.getBoundingClientRect().width * devicePixelRatio / canvas.width,
        ]"""
    )
    return found


def test_sharpening_is_off_and_shown_pixel_by_pixel_when_it_is_on(at_work: Bench) -> None:
    expect(at_work.field("print.sharpening")).to_have_value("0")
    expect(at_work.page.locator("#sharpening-shown")).to_have_count(0)
    at_work.set("print.sharpening", "80")
    at_work.page.locator("#sharpening-shown").scroll_into_view_if_needed()
    expect(at_work.page.locator("#sharpening-shown")).to_have_attribute("data-state", "drawn", timeout=60_000)
    plain, scale = _canvas(at_work, "A part of the face without sharpening")
    sharp, _ = _canvas(at_work, "The same part sharpened")
    assert scale == pytest.approx(1.0, abs=0.01)
    change = np.abs(np.array(plain) - np.array(sharp))
    # derived: at most 16 levels at full amount; the hard bars reach that.
    assert 8 <= change.max() <= 17
    at_work.set("print.sharpening", "0")
    expect(at_work.page.locator("#sharpening-shown")).to_have_count(0)


def test_16_bits_come_out_of_the_page_with_all_levels(at_work: Bench, tmp_path: Path) -> None:
    """Derived: at 72 ppi the face is enlarged; 8 bits would leave 50 levels of the ramp, 16 all of it."""
    at_work.set("print.ppi", "72")
    at_work.choose("Bits a channel", "16")
    written = at_work.write_file("TIFF", tmp_path)
    found = tifffile.imread(written)
    assert found.dtype == np.uint16
    middle = found[found.shape[0] // 2]
    within = middle[(middle > 21000) & (middle < 31000)]
    assert len(np.unique(within)) > 250


def test_a_pdf_comes_out_of_the_page_with_the_pixels_of_the_tiff(at_work: Bench, tmp_path: Path) -> None:
    """Against the page's own TIFF, by qpdf and poppler; marks are beside a PDF's picture, not in it."""
    tiff = tifffile.imread(at_work.write_file("TIFF", tmp_path))
    written = at_work.write_file("PDF", tmp_path)
    expect(at_work.page.locator("#print-report")).to_contain_text("PDF, 16 bits")
    assert written.suffix == ".pdf"
    (image,) = outside.images(written)
    assert (image["bpc"], image["x-ppi"]) == ("16", "72")
    found = outside.picture(written).squeeze()
    differs = found != tiff
    # The inked area is the middle; marks stand beside it.
    quarter = tuple(slice(length // 4, -(length // 4)) for length in tiff.shape)
    assert not differs[quarter].any()
    assert (found[differs] == 65535).all()
    assert 0 < differs.mean() < 0.05
    # Derived: 90.9 mm of sides, thickness and turn-over beside the face.
    face = [float(at_work.field(f"face.{side}_mm").input_value()) for side in ("width", "height")]
    assert outside.boxes_mm(written)["TrimBox"] == pytest.approx(
        [0, 0, face[0] + 90.9, face[1] + 90.9], abs=0.01
    )


def test_enlarging_is_kept_with_the_job(at_work: Bench, tmp_path: Path) -> None:
    at_work.choose("Enlarging", "Drawing")
    job = json.loads(at_work.save_job(tmp_path).read_text(encoding="utf-8"))
    assert job["picture"]["enlarging"] == "drawing"
    assert job["print"]["bits"] == 16


def test_a_jpeg_of_16_bits_is_refused_beside_its_button(at_work: Bench) -> None:
    at_work.page.locator("#print-kind").get_by_label("JPEG", exact=True).click()
    expect(at_work.page.locator('[data-field="print.bits"] .consequence')).to_contain_text("8 bits a channel")
    at_work.button("Save the print file").click()
    refused = at_work.page.locator(".error-text", has_text="a JPEG, which holds no more")
    expect(refused).to_be_visible(timeout=60_000)
    expect(refused).to_contain_text("TIFF, a PNG or a PDF")
