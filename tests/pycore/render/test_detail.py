"""A part of the face pixel by pixel is what the print file has there, without and with sharpening."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.tones import U8
from pycore.progress import run_to_end
from pycore.render.canvas import render_canvas
from pycore.render.detail import print_detail
from pycore.render.preview import PreviewSource


def _preview() -> PreviewSource:
    """Soft noise, and in its lower right part hard rings."""
    rows, columns = np.mgrid[0:240, 0:320]
    values = np.random.default_rng(7).integers(100, 130, (240, 320, 3), dtype=np.uint8)
    radius = np.hypot(rows - 180, columns - 250)
    values[(radius < 40) & (radius.astype(int) % 8 < 4)] = (230, 40, 20)
    out = io.BytesIO()
    Image.fromarray(values).save(out, "PNG")
    return PreviewSource(read_picture(out.getvalue(), file="rings.png"))


def _job(sharpening: float, ppi: float = 150, **parts: Any) -> Job:
    small = {"face": {"width_mm": 160, "height_mm": 120}, "bars": {"depth_mm": 15}}
    return check_job(small | {"print": {"ppi": ppi, "sharpening": sharpening}} | parts)


def _printed(preview: PreviewSource, job: Job, left: int, top: int, size: tuple[int, ...]) -> U8:
    canvas = run_to_end(render_canvas(preview.source, job, pixel_grid(job, ppi=job.print.ppi), channels=3))
    return canvas[top : top + size[0], left : left + size[1]]


@pytest.mark.parametrize("fill", ["mirror", "run-on"])
@pytest.mark.parametrize("turn", [0, 90])
def test_it_is_what_the_print_file_has_there(fill: str, turn: int) -> None:
    """Derived: the window is cut at another pixel, where Pillow rounds a place to 24 bits: a level."""
    preview = _preview()
    job = _job(0.7, sides={"fill": fill}, picture={"turn": turn})
    found = print_detail(preview, job, width_px=200, height_px=150)
    assert found.plain.shape == found.sharpened.shape == (150, 200, 3)
    for amount, pixels in ((0.0, found.plain), (0.7, found.sharpened)):
        one = job.model_copy(update={"print": job.print.model_copy(update={"sharpening": amount})})
        printed = _printed(preview, one, found.left_px, found.top_px, pixels.shape)
        difference = np.abs(pixels.astype(int) - printed)
        assert difference.max() <= 2
        assert (difference > 0).mean() < 0.01


def test_it_is_the_part_with_most_edges() -> None:
    """Derived: the rings' middle lies at 250 of 320 and 180 of 240 of the picture, hence of the face."""
    preview, job = _preview(), _job(0.5)
    found = print_detail(preview, job, width_px=160, height_px=160)
    grid = pixel_grid(job, ppi=150)
    across = (found.left_px + 80 - grid.columns[2]) / (grid.columns[3] - grid.columns[2])
    down = (found.top_px + 80 - grid.rows[2]) / (grid.rows[3] - grid.rows[2])
    assert across == pytest.approx(250 / 320, abs=0.1)
    assert down == pytest.approx(180 / 240, abs=0.12)
    assert (found.plain != found.sharpened).any()


def test_a_face_smaller_than_the_part_is_shown_whole() -> None:
    found = print_detail(_preview(), _job(0.5, ppi=36), width_px=1024, height_px=1024)
    grid = pixel_grid(_job(0.5), ppi=36)
    assert found.plain.shape == (grid.rows[3] - grid.rows[2], grid.columns[3] - grid.columns[2], 3)
    assert (found.left_px, found.top_px) == (grid.columns[2], grid.rows[2])


def test_without_sharpening_both_are_alike() -> None:
    found = print_detail(_preview(), _job(0.0), width_px=100, height_px=100)
    assert np.array_equal(found.plain, found.sharpened)
