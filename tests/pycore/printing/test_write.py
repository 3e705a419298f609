"""The print file, written and re-read by libraries that did not write it."""

from __future__ import annotations

import errno
import io
import os
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.colour.icc.standard_profiles import srgb_profile
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import FieldError, OutputError
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun
from tests.shipped_photographs import shipped_photograph

#: Pyodide has not the package that ships the photographs.
pytestmark = pytest.mark.native


def _photograph() -> SourcePicture:
    file = shipped_photograph("china")
    return read_picture(file.read_bytes(), file=file.name)


def _patch(mode: str) -> SourcePicture:
    values = np.random.default_rng(3).integers(0, 256, (60, 80, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(values).convert(mode).save(out, "TIFF")
    return read_picture(out.getvalue(), file="patch.tif")


def _job(**more: Any) -> Job:
    small = {"name": "Low tide", "face": {"width_mm": 100, "height_mm": 75}, "bars": {"depth_mm": 18}}
    return check_job(small | {"print": {"ppi": 100}} | more)


def _written(source: SourcePicture, job: Job, kind: FileKind, out: Any) -> PrintRun:
    run = PrintRun(source, job, kind=kind, out=out, date="2031-04-30")
    steps = list(run.steps())
    shares = [step.done for step in steps]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    return run


#: What Pillow opens; PDFs are in `pdf/`.
_PIXELS = [kind for kind in FileKind if kind is not FileKind.PDF]


@pytest.mark.parametrize("kind", _PIXELS)
def test_size_resolution_and_profile_are_right(kind: FileKind, tmp_path: Path) -> None:
    """Derived: (100 + 0.9 + 2 (18 + 25)) mm at 100 ppi: 186.9 / 25.4 * 100 = 735.8, so 736; 637.4, so 637."""
    source, out = _photograph(), tmp_path / f"canvas.{kind}"
    report = _written(source, _job(), kind, out).report
    assert (report.width_px, report.height_px) == (736, 637)
    # PNG keeps whole pixels per metre: 3937, which are 99.9998 per inch.
    assert report.ppi == pytest.approx((100, 100), abs=3e-4)
    assert report.size_mm == pytest.approx((736 * 0.254, 637 * 0.254), abs=1e-3)
    assert report.profile_name == "sRGB IEC61966-2.1"
    assert (report.file, report.format, report.bits) == (out.name, kind.upper(), 8)
    assert report.bytes == out.stat().st_size
    with Image.open(out) as image:
        assert image.size == (736, 637)
        assert image.info["icc_profile"] == source.profile
        assert image.info["dpi"] == pytest.approx((100, 100), abs=3e-4)


def test_a_jpeg_keeps_the_nearest_whole_resolution(tmp_path: Path) -> None:
    """Derived: 100.6 is nearer to 101 than to 100; the canvas has its pixels by 100.6 all the same."""
    out = tmp_path / "canvas.jpg"
    run = _written(_photograph(), _job(print={"ppi": 100.6}), FileKind.JPEG, out)
    with Image.open(out) as image:
        assert image.info["dpi"] == (101, 101)
        # Derived: 186.9 mm / 25.4 x 100.6 = 740.2.
        assert image.width == 740
    assert [note.code for note in run.notes if note.code == "resolution-rounded"] == ["resolution-rounded"]


def test_all_formats_hold_the_same_canvas(tmp_path: Path) -> None:
    source, pixels = _photograph(), {}
    for kind in _PIXELS:
        out = tmp_path / f"canvas.{kind}"
        _written(source, _job(), kind, out)
        with Image.open(out) as image:
            pixels[kind] = np.asarray(image.convert("RGB")).astype(int)
    assert (pixels[FileKind.TIFF] == pixels[FileKind.PNG]).all()
    assert (pixels[FileKind.TIFF] == tifffile.imread(tmp_path / "canvas.tiff")).all()
    # Regression: what JPEG at quality 97 without halved chroma costs.
    assert np.abs(pixels[FileKind.TIFF] - pixels[FileKind.JPEG]).mean() < 1.0


@pytest.mark.parametrize("mode", ["L", "RGB", "CMYK"])
@pytest.mark.parametrize("kind", [FileKind.TIFF, FileKind.JPEG])
def test_every_pixel_kind(kind: FileKind, mode: str) -> None:
    """Published: TIFF 6.0: tag 262 is 1 grey, 2 RGB, 5 separated; 258: bits; 259: 1, plain; 296: 2, inch."""
    out = io.BytesIO()
    run = _written(_patch(mode), _job(), kind, out)
    assert run.report.bytes == len(out.getvalue())
    untagged = "file-untagged" in [note.code for note in run.notes]
    named = {"L": "sRGB, grey", "RGB": "sRGB", "CMYK": ""}[mode]
    assert (run.report.profile_name, untagged) == (named, mode == "CMYK")
    with Image.open(io.BytesIO(out.getvalue())) as image:
        assert image.mode == mode
        if mode == "CMYK":
            assert "icc_profile" not in image.info
        else:
            assert image.info["icc_profile"] == srgb_profile({"L": "GRAY", "RGB": "RGB"}[mode])
        bare = image.getpixel((3, image.height // 2))
        if kind is FileKind.TIFF:
            tags = image.tag_v2
            assert tags[262] == {"L": 1, "RGB": 2, "CMYK": 5}[mode]
            assert set(tags[258]) == {8}
            assert (tags[259], tags[296]) == (1, 2)
    assert bare == {"L": 255, "RGB": (255, 255, 255), "CMYK": (0, 0, 0, 0)}[mode]


def test_cmyk_in_a_png_is_refused_with_a_way_out() -> None:
    run = PrintRun(_patch("CMYK"), _job(), kind=FileKind.PNG, out=io.BytesIO(), date="2031-04-30")
    with pytest.raises(FieldError, match="Save a TIFF"):
        list(run.steps())


def test_the_same_job_gives_the_same_bytes() -> None:
    for kind in FileKind:
        first, second = io.BytesIO(), io.BytesIO()
        for out in (first, second):
            _written(_photograph(), _job(), kind, out)
        assert first.getvalue() == second.getvalue()


def test_marks_are_drawn_when_asked_for_and_only_then() -> None:
    grid = pixel_grid(_job(), ppi=100)
    canvases = []
    for marks in (True, False):
        out = io.BytesIO()
        _written(_patch("L"), _job(print={"ppi": 100, "marks": marks}), FileKind.TIFF, out)
        canvases.append(tifffile.imread(io.BytesIO(out.getvalue())))
    assert (canvases[1][: grid.rows[1]] == 255).all()
    assert (canvases[0][: grid.rows[1]] == 0).any()
    inked = (slice(grid.rows[1], grid.rows[4]), slice(grid.columns[1], grid.columns[4]))
    assert (canvases[0][inked] == canvases[1][inked]).all()


def test_16_bits_in_a_jpeg_are_refused_before_anything_is_written(tmp_path: Path) -> None:
    out = tmp_path / "canvas.jpg"
    run = PrintRun(
        _patch("RGB"), _job(print={"ppi": 100, "bits": 16}), kind=FileKind.JPEG, out=out, date="2031-04-30"
    )
    with pytest.raises(FieldError, match="a JPEG, which holds no more") as caught:
        list(run.steps())
    assert caught.value.field == "print.bits"
    assert not list(tmp_path.iterdir())


def test_a_resolution_that_jpeg_cannot_keep_is_named() -> None:
    run = _written(_patch("RGB"), _job(print={"ppi": 100.4}), FileKind.JPEG, io.BytesIO())
    assert "resolution-rounded" in [note.code for note in run.notes]
    assert run.report.ppi == (100.0, 100.0)
    assert run.report.width_px == round(186.9 / 25.4 * 100.4)
    exact = _written(_patch("RGB"), _job(print={"ppi": 100.4}), FileKind.TIFF, io.BytesIO())
    assert exact.report.ppi == pytest.approx((100.4, 100.4), abs=1e-6)


def test_a_place_that_cannot_be_written_is_an_error_before_the_work(tmp_path: Path) -> None:
    (tmp_path / "folder.tiff").mkdir()
    for out, got in (
        (tmp_path / "nowhere" / "canvas.tiff", "does not exist"),
        (tmp_path / "folder.tiff", "is a folder"),
    ):
        run = PrintRun(_patch("L"), _job(), kind=FileKind.TIFF, out=out, date="2031-04-30")
        with pytest.raises(OutputError, match=got) as caught:
            next(iter(run.steps()))
        assert caught.value.field == "out"


def test_a_file_that_may_not_be_written_is_an_error(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "canvas.tiff"
    out.write_bytes(b"kept")
    monkeypatch.setattr(os, "access", lambda path, mode: path != out)
    run = PrintRun(_patch("L"), _job(), kind=FileKind.TIFF, out=out, date="2031-04-30")
    with pytest.raises(OutputError, match="may not be written"):
        list(run.steps())
    assert out.read_bytes() == b"kept"


def test_a_stopped_run_leaves_nothing_behind(tmp_path: Path) -> None:
    out = tmp_path / "canvas.png"
    out.write_bytes(b"of yesterday")
    steps = PrintRun(_patch("RGB"), _job(), kind=FileKind.PNG, out=out, date="2031-04-30").steps()
    for step in steps:
        if step.label.startswith("Saving"):
            break
    steps.close()
    assert out.read_bytes() == b"of yesterday"
    assert os.listdir(tmp_path) == ["canvas.png"]


def test_a_full_disk_is_one_clear_error(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any, **__: Any) -> Any:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr("pycore.printing.write.encode_file", full)
    out = tmp_path / "canvas.tiff"
    run = PrintRun(_patch("L"), _job(), kind=FileKind.TIFF, out=out, date="2031-04-30")
    with pytest.raises(OutputError, match="no space is left"):
        list(run.steps())
    assert os.listdir(tmp_path) == []
    with pytest.raises(OutputError, match="none yet"):
        _ = run.report


@pytest.mark.parametrize(
    ("failure", "is_short"),
    [(MemoryError(), True), (ValueError("array is too big"), True), (ValueError("another fault"), False)],
)
def test_memory_that_runs_out_is_one_clear_error(
    failure: Exception, is_short: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: Any, **__: Any) -> Any:
        raise failure

    monkeypatch.setattr("pycore.printing.write.canvas_strips", fails)
    run = PrintRun(_patch("L"), _job(), kind=FileKind.TIFF, out=io.BytesIO(), date="2031-04-30")
    kind, said = (OutputError, "fits in memory") if is_short else (ValueError, "another fault")
    with pytest.raises(kind, match=said):
        list(run.steps())
