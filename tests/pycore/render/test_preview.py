"""The picture for the screen: near the print's pixels, and quick to change."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageFilter

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8
from pycore.progress import run_to_end
from pycore.render import preview as preview_module
from pycore.render import reduced_copy as copy_module
from pycore.render.canvas import Rendering, render_canvas
from pycore.render.preview import PreviewSource
from pycore.render.resample import resample


def _picture(width: int, height: int, mode: str = "RGB", **options: Any) -> SourcePicture:
    """Soft blobs, as photographs have them."""
    return read_picture(_file(width, height, mode, **options), file="blobs.tif")


@cache
def _file(width: int, height: int, mode: str, **options: Any) -> bytes:
    coarse = np.random.default_rng(12).integers(0, 256, (9, 12, 3), dtype=np.uint8)
    image = Image.fromarray(coarse).resize((width, height), Image.Resampling.BICUBIC).convert(mode)
    out = io.BytesIO()
    image.filter(ImageFilter.GaussianBlur(1)).save(out, "TIFF", **options)
    return out.getvalue()


def _run(rendering: Rendering) -> U8:
    return run_to_end(rendering)


def _job(**more: Any) -> Job:
    return check_job({"face": {"width_mm": 200, "height_mm": 150}, "bars": {"depth_mm": 20}} | more)


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
@pytest.mark.parametrize("crop", [None, {"x": 0.05, "y": 0.1, "width": 0.8, "height": 0.7}])
def test_it_shows_what_the_print_will(turn: int, crop: Any) -> None:
    """Derived: for a small sRGB picture the screen's copy is the picture itself, so all pixels agree."""
    picture = _picture(640, 480)
    job = _job(picture={"turn": turn} | ({"crop": crop} if crop else {}))
    grid = pixel_grid(job, ppi=40)
    shown = _run(PreviewSource(picture).canvas(job, grid))
    printed = _run(render_canvas(picture, job, grid, channels=4))
    assert shown.shape == (grid.height_px, grid.width_px, 4)
    assert (shown == printed).all()


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
@pytest.mark.parametrize("width", [1.0, 0.5, 0.05])
def test_a_large_picture_is_shown_as_finely_as_it_is_printed(turn: int, width: float) -> None:
    """Near the print though it comes from a reduced copy, of the whole or of the part that is looked at."""
    picture = _picture(2600, 1900)
    crop = {"x": 0.4 * (1 - width), "y": 0.3 * (1 - width), "width": width, "height": width}
    job = _job(picture={"turn": turn, "crop": crop})
    grid = pixel_grid(job, ppi=60)
    shown = _run(PreviewSource(picture).canvas(job, grid)).astype(int)
    printed = _run(render_canvas(picture, job, grid, channels=4))
    # Regression: two reductions instead of one, rounded to 8 bits between them, on soft blobs.
    assert np.abs(shown - printed).max() <= 3


def test_the_resampled_face_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = []

    def counted(*arguments: Any, **options: Any) -> Any:
        calls.append(options)
        return resample(*arguments, **options)

    monkeypatch.setattr(preview_module, "resample", counted)
    preview = PreviewSource(_picture(600, 450))
    grid = pixel_grid(_job(), ppi=40)
    _run(preview.canvas(_job(), grid))
    before = len(calls)
    for sides in ({"fill": "plain"}, {"blur_mm": 5}, {"fill": "drawn-out"}):
        _run(preview.canvas(_job(sides=sides), grid))
    # Derived: 5 pixels at 40 ppi are 3.175 mm, so that all lines move by whole pixels.
    deeper = _job(bars={"depth_mm": 23.175})
    _run(preview.canvas(deeper, pixel_grid(deeper, ppi=40)))
    assert len(calls) == before
    _run(preview.canvas(_job(picture={"turn": 180}), grid))
    assert len(calls) == before + 1


def test_a_part_that_was_copied_serves_again_near_by(monkeypatch: pytest.MonkeyPatch) -> None:
    sources = []

    def counted(image: Any, *arguments: Any, **options: Any) -> Any:
        sources.append(image)
        return resample(image, *arguments, **options)

    picture = _picture(2600, 1900)
    preview = PreviewSource(picture)
    monkeypatch.setattr(copy_module, "resample", counted)
    for x in (0.40, 0.41, 0.42):
        job = _job(picture={"crop": {"x": x, "y": 0.4, "width": 0.2, "height": 0.2}})
        _run(preview.canvas(job, pixel_grid(job, ppi=60)))
    assert sum(image is picture.image for image in sources) == 1


def test_the_thumbnail_is_small_and_upright() -> None:
    thumbnail = PreviewSource(_picture(1200, 800)).thumbnail()
    assert thumbnail.shape == (320, 480, 4)
    assert (thumbnail[..., 3] == 255).all()
    assert PreviewSource(_picture(60, 40)).thumbnail().shape == (40, 60, 4)


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_grey_and_inks_are_shown_as_srgb(mode: str) -> None:
    picture = _picture(300, 200, mode)
    preview = PreviewSource(picture)
    job = _job()
    canvas = _run(preview.canvas(job, pixel_grid(job, ppi=30)))
    assert canvas.shape[2] == 4
    assert (canvas[0, 0] == 255).all()
    expected = np.asarray(picture.image.convert("RGB")).reshape(-1, 3).mean(axis=0)
    assert np.abs(canvas[30:-30, 30:-30, :3].reshape(-1, 3).mean(axis=0) - expected).max() < 40
    assert [note.code for note in preview.notes] == (["resampled-encoded"] if mode == "CMYK" else [])
