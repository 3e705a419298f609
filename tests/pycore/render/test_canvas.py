"""The flat canvas as pixels."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import GeometryError
from pycore.fill.checks import picture_area
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.window import CropWindow
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8
from pycore.progress import Progress, map_progress, run_to_end
from pycore.render.area import window_area
from pycore.render.canvas import Rendering, render_canvas


def _picture(width: int, height: int, mode: str = "RGB") -> SourcePicture:
    values = np.random.default_rng(9).integers(0, 256, (height, width, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(values).convert(mode).save(out, "TIFF")
    return read_picture(out.getvalue(), file="noise.tif")


def _run(rendering: Rendering) -> tuple[U8, list[Progress]]:
    steps: list[Progress] = []
    return run_to_end(map_progress(rendering, steps.append)), steps


def _exact(job: Job) -> tuple[PixelGrid, SourcePicture]:
    """A picture with just the pixels that the canvas has for it."""
    grid = pixel_grid(job, ppi=25.4)
    left, top, right, bottom = picture_area(grid, job)
    return grid, _picture(right - left, bottom - top)


_PLAIN = {"face": {"width_mm": 120, "height_mm": 90}, "canvas": {"thickness_mm": 0}, "bars": {"depth_mm": 20}}


@pytest.mark.parametrize("fill", ["mirror", "run-on"])
def test_a_picture_that_fits_pixel_by_pixel_is_handed_on_unchanged(fill: str) -> None:
    job = check_job(_PLAIN | {"sides": {"fill": fill}})
    grid, picture = _exact(job)
    canvas, _ = _run(render_canvas(picture, job, grid, channels=3))
    left, top, right, bottom = picture_area(grid, job)
    assert canvas.shape == (grid.height_px, grid.width_px, 3)
    assert (canvas[top:bottom, left:right] == np.asarray(picture.image)).all()


def test_progress_rises_to_one() -> None:
    job = check_job(_PLAIN)
    grid = pixel_grid(job, ppi=72)
    _, steps = _run(render_canvas(_picture(300, 200), job, grid, channels=3))
    shares = [step.done for step in steps]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert len(steps) > 3


@pytest.mark.parametrize(
    ("mode", "channels", "bare"), [("L", 1, 255), ("RGB", 3, 255), ("RGB", 4, 255), ("CMYK", 4, 0)]
)
def test_bare_canvas_has_no_ink(mode: str, channels: int, bare: int) -> None:
    job = check_job(_PLAIN)
    grid = pixel_grid(job, ppi=25.4)
    canvas, _ = _run(render_canvas(_picture(150, 120, mode), job, grid, channels=channels))
    assert (canvas[: grid.rows[1]] == bare).all()
    assert (canvas[:, grid.columns[4] :] == bare).all()
    if (mode, channels) == ("RGB", 4):
        assert (canvas[..., 3] == 255).all()


def test_what_cannot_be_filled_is_said_before_any_work() -> None:
    job = check_job({"face": {"width_mm": 50, "height_mm": 50}, "bars": {"depth_mm": 90}})
    rendering = render_canvas(_picture(60, 60), job, pixel_grid(job, ppi=25.4), channels=3)
    with pytest.raises(GeometryError, match="Bar depth must be at most"):
        next(rendering)


def test_fractions_that_mean_whole_pixels_are_taken_as_such() -> None:
    """Derived: a third of 99 pixels is 33, though 1 / 3 is no binary fraction; 0.4 pixels off is meant."""
    picture = _picture(99, 60)
    area = window_area(picture, Job(), CropWindow(x=1 / 3, y=0.1, width=1 / 3, height=0.5))
    assert (area.left, area.top, area.right, area.bottom) == (33.0, 6.0, 66.0, 36.0)
    area = window_area(picture, Job(), CropWindow(x=33.4 / 99, y=0, width=0.5, height=1))
    assert area.left == pytest.approx(33.4)
    turned = check_job({"picture": {"turn": 90}})
    area = window_area(picture, turned, CropWindow(x=0, y=0, width=1, height=1))
    assert (area.right, area.bottom) == (60.0, 99.0)


def test_a_turn_and_a_crop_together() -> None:
    """Derived: turned clockwise, the lower-left quarter of the picture is the upper-left one."""
    values = np.zeros((80, 80, 3), np.uint8)
    values[40:, :40] = (200, 10, 10)
    out = io.BytesIO()
    Image.fromarray(values).save(out, "PNG")
    picture = read_picture(out.getvalue(), file="quarter.png")
    job = check_job(
        {
            "face": {"width_mm": 60, "height_mm": 60},
            "picture": {"turn": 90, "crop": {"x": 0.1, "y": 0.1, "width": 0.3, "height": 0.3}},
        }
    )
    grid = pixel_grid(job, ppi=25.4)
    canvas, _ = _run(render_canvas(picture, job, grid, channels=3))
    assert (canvas[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4]] == (200, 10, 10)).all()
