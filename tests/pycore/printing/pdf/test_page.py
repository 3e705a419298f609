"""The PDF of a job, as poppler, qpdf, exiftool and LittleCMS read it, against the TIFF of the same job."""

from __future__ import annotations

import io
import itertools
import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image, ImageCms

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind, FileReport
from pycore.printing.write import PrintRun

from . import outside

pytestmark = pytest.mark.native

_SMALL = {"name": "Low tide", "face": {"width_mm": 100, "height_mm": 75}, "bars": {"depth_mm": 18}}


def _source(mode: str, *, profile: bytes | None = None) -> SourcePicture:
    values = np.random.default_rng(3).integers(0, 256, (60, 80, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(values).convert(mode).save(out, "TIFF", icc_profile=profile)
    return read_picture(out.getvalue(), file="patch.tif")


def _job(*, ppi: float = 100, bits: int = 8, marks: bool = True, **more: Any) -> Job:
    return check_job(_SMALL | {"print": {"ppi": ppi, "bits": bits, "marks": marks}} | more)


def _written(source: SourcePicture, job: Job, out: Path) -> FileReport:
    kind = FileKind.PDF if out.suffix == ".pdf" else FileKind.TIFF
    run = PrintRun(source, job, kind=kind, out=out, date="2031-04-30")
    list(run.steps())
    if kind is FileKind.PDF:
        assert b"No syntax or stream encoding errors found" in outside.run("qpdf", "--check", out)
    return run.report


_ROLL = {"width_mm": 610, "height_mm": None}


@pytest.mark.parametrize(
    ("more", "canvas_mm", "bare_mm"),
    [
        # Derived: 100 + 2 x 0.45 + 2 (18 + 25) = 186.9; 75 + 86.9 = 161.9; 25 - 6 are bare.
        ({}, (186.9, 161.9), (19.0, 19.0)),
        # Derived: divided by 1.02 across and 1.01 down.
        ({"canvas": {"stretch_percent": [2, 1]}}, (186.9 / 1.02, 161.9 / 1.01), (19 / 1.02, 19 / 1.01)),
        # Derived: 1200 + 86.9 on a roll; 30 - 30 are bare.
        (
            {
                "face": {"width_mm": 333.3, "height_mm": 1200},
                "sheet": _ROLL,
                "wrap": {"turnover_mm": 30, "ink_over_mm": 30},
            },
            (430.2, 1296.9),
            (0.0, 0.0),
        ),
    ],
)
@pytest.mark.parametrize("ppi", [72, 123.4])
def test_boxes_are_right_to_a_hundredth_of_a_mm(
    more: dict[str, Any],
    canvas_mm: tuple[float, float],
    bare_mm: tuple[float, float],
    ppi: float,
    tmp_path: Path,
) -> None:
    out = tmp_path / "canvas.pdf"
    report = _written(_source("L"), _job(ppi=ppi, **more), out)
    boxes = outside.boxes_mm(out)
    (width, height), (across, down) = canvas_mm, bare_mm
    for name in ("MediaBox", "BleedBox", "TrimBox", "CropBox"):
        assert boxes[name] == pytest.approx([0, 0, width, height], abs=0.01)
    assert boxes["ArtBox"] == pytest.approx([across, down, width - across, height - down], abs=0.01)
    assert report.size_mm == pytest.approx(canvas_mm, abs=0.005)
    # Published: 14.11.2.1: no box may reach past the media box; derived: pdfinfo prints 0.01 unit.
    assert min(boxes["ArtBox"]) >= 0


@pytest.mark.parametrize(("mode", "channels"), [("L", 1), ("RGB", 3), ("CMYK", 4)])
@pytest.mark.parametrize("bits", [8, 16])
def test_the_picture_is_that_of_the_tiff_byte_for_byte(
    mode: str, channels: int, bits: int, tmp_path: Path
) -> None:
    pdf, tiff = tmp_path / "canvas.pdf", tmp_path / "canvas.tif"
    job = _job(bits=bits, marks=False)
    report, other = _written(_source(mode), job, pdf), _written(_source(mode), job, tiff)
    (image,) = outside.images(pdf)
    # Derived: 186.9 and 161.9 mm at 100 ppi are 735.8 and 637.4 pixels.
    assert (image["width"], image["height"], image["comp"]) == ("736", "637", str(channels))
    assert (image["bpc"], image["enc"]) == (str(bits), "image")
    assert (image["x-ppi"], image["y-ppi"]) == ("100", "100")
    pixels = outside.picture(pdf)
    assert (pixels.squeeze() == tifffile.imread(tiff)).all()
    assert (report.format, report.bits) == ("PDF", bits)
    assert (report.width_px, report.height_px) == (other.width_px, other.height_px)
    assert report.ppi == pytest.approx((100, 100), abs=1e-6)
    assert report.bytes == pdf.stat().st_size


@pytest.mark.parametrize("ppi", [100, 123.4, 150])
@pytest.mark.parametrize("mode", ["L", "RGB"])
def test_the_page_is_drawn_pixel_by_pixel_as_the_tiff(mode: str, ppi: float, tmp_path: Path) -> None:
    """At its own resolution, marks and all; only letters have other shapes.

    Where the canvas is a little larger than its whole pixels, the page has one more column or row, bare.
    """
    pdf, tiff = tmp_path / "canvas.pdf", tmp_path / "canvas.tif"
    for out in (pdf, tiff):
        _written(_source(mode), _job(ppi=ppi), out)
    canvas = np.asarray(Image.open(tiff).convert("RGB"))
    page = outside.drawn(pdf, ppi, tmp_path)
    rows, columns = canvas.shape[:2]
    assert 0 <= page.shape[0] - rows <= 1
    assert 0 <= page.shape[1] - columns <= 1
    assert (page[rows:] == 255).all()
    assert (page[:, columns:] == 255).all()
    differs = (page[:rows, :columns] != canvas).any(axis=2)
    grid = pixel_grid(_job(), ppi=ppi)
    lettered = np.zeros_like(differs)
    clear = slice(grid.columns[2] + round(grid.px_per_mm), grid.columns[3] - round(grid.px_per_mm))
    lettered[: grid.rows[1], clear] = lettered[grid.rows[4] :, clear] = True
    assert differs.any()
    assert not differs[~lettered].any()
    # The marks are there. Derived at 100 ppi, where a line is one pixel wide: eight ticks of 20 and eight of
    # 10 pixels, eight arms of 20 of which two share each corner; more at a higher resolution.
    bare = np.ones_like(differs)
    bare[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4]] = False
    assert ((page[:rows, :columns] == 0).all(axis=2) & bare & ~lettered).sum() >= 8 * 30 + 8 * 20 - 4


def test_black_of_the_marks_is_black_ink_where_the_file_is_cmyk(tmp_path: Path) -> None:
    out = tmp_path / "canvas.pdf"
    _written(_source("CMYK"), _job(), out)
    (drawing,) = [
        text
        for number in range(1, 20)
        if (text := _drawing(out, number)).startswith("q ") and "/Canvas Do" in text
    ]
    assert "/Ink cs 0 0 0 1 sc" in drawing
    # Derived: eight fold lines with two ticks each, four corners with two arms each.
    assert len(re.findall(r"\bre f\b", drawing)) == 16 + 8


def _drawing(pdf: Path, number: int) -> str:
    try:
        return outside.data(pdf, number).decode("ascii")
    except Exception:  # Not every object is a stream.
        return ""


@pytest.mark.parametrize("mode", ["L", "RGB"])
def test_the_profile_is_embedded_once_and_littlecms_opens_it(mode: str, tmp_path: Path) -> None:
    data = _grey_profile()
    if mode == "RGB":
        data = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    pdf = tmp_path / "canvas.pdf"
    report = _written(_source(mode, profile=data), _job(), pdf)
    assert outside.profile(pdf) == data
    opened = ImageCms.getOpenProfile(io.BytesIO(outside.profile(pdf)))
    assert opened.profile.xcolor_space.strip() == {"L": "GRAY", "RGB": "RGB"}[mode]
    assert outside.images(pdf)[0]["color"] == "icc"
    assert report.profile_name
    # The picture's colours are kept: the file is meant for no printer alone.
    catalogue = outside.dictionary(pdf, outside.referred(outside.trailer(pdf), "Root"))
    assert "/OutputIntents" not in catalogue
    assert "/PrintScaling /None" in catalogue


def _grey_profile() -> bytes:
    return (Path(__file__).parents[2] / "colour" / "data" / "grey-v2.icc").read_bytes()


def test_two_files_of_one_job_are_the_same_and_of_two_jobs_have_other_identities(tmp_path: Path) -> None:
    outs = [tmp_path / f"{place}.pdf" for place in range(3)]
    for out, name in zip(outs, ("Low tide", "Low tide", "High tide"), strict=True):
        _written(_source("RGB"), _job(name=name), out)
    assert outs[0].read_bytes() == outs[1].read_bytes()
    identities = [re.search(r"/ID \[ (<\w+>)", outside.trailer(out)) for out in outs]
    assert all(identities)
    assert len({one[1] for one in identities if one}) == 2


def test_exiftool_reads_what_the_document_is(tmp_path: Path) -> None:
    out = tmp_path / "canvas.pdf"
    _written(_source("RGB"), _job(), out)
    facts = outside.facts(out)
    assert (facts["FileType"], facts["PageCount"], facts["Title"]) == ("PDF", 1, "Low tide")
    assert facts["CreateDate"].startswith("2031:04:30")
    assert "Warning" not in facts


def test_a_date_in_words_stands_among_the_marks_only(tmp_path: Path) -> None:
    out = tmp_path / "canvas.pdf"
    run = PrintRun(_source("RGB"), _job(), kind=FileKind.PDF, out=out, date="30 (late) April")
    list(run.steps())
    assert b"No syntax or stream encoding errors found" in outside.run("qpdf", "--check", out)
    assert "CreateDate" not in outside.facts(out)
    assert outside.text(out)[1].endswith("18 mm deep, 30 (late) April")


def test_strips_are_not_kept(tmp_path: Path) -> None:
    """Derived: the picture has 36 MB, a strip 2.3 MB; with its filtered and packed copies less than 12."""
    import tracemalloc

    from pycore.printing.pdf.page import PdfPage, write_pdf

    rows, shape = 256, (4096, 3000, 3)
    noise = np.random.default_rng(5).integers(0, 256, (rows, *shape[1:]), dtype=np.uint8)
    page = PdfPage(
        size_mm=(254.0, 346.8),
        inked_mm=(0.0, 0.0, 254.0, 346.8),
        marks=None,
        title="",
        date="2031-04-30",
        printer_values=False,
    )
    with (tmp_path / "canvas.pdf").open("w+b") as out:
        tracemalloc.start()
        try:
            done = list(
                write_pdf(
                    itertools.repeat(noise, shape[0] // rows),
                    out,
                    mode="RGB",
                    shape=shape,
                    bits=8,
                    ppi=300,
                    profile=None,
                    page=page,
                )
            )
            most = tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()
    assert done[-1] == shape[0]
    assert most < 12e6
    assert outside.picture(tmp_path / "canvas.pdf").shape == shape
