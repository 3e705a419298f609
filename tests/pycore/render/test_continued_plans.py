"""Continued sides from the picture to the canvas: repeatable, the same on screen and in print, kept."""

from __future__ import annotations

import io
from collections.abc import Generator
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.fill import continued_sides
from pycore.fill.continued_plan import plan_continued
from pycore.fill.facing import U8, facing
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.progress import Progress, map_progress, run_to_end
from pycore.render.canvas import render_canvas
from pycore.render.preview import PreviewSource

Ended = TypeVar("Ended")


def _run(steps: Generator[Progress, None, Ended]) -> tuple[Ended, list[float]]:
    done: list[float] = []
    return run_to_end(map_progress(steps, lambda step: done.append(step.done))), done


def _as_file(pixels: npt.NDArray[np.uint8], mode: str = "RGB") -> SourcePicture:
    file = io.BytesIO()
    Image.fromarray(pixels).convert(mode).save(file, "TIFF" if mode == "CMYK" else "PNG")
    return read_picture(file.getvalue(), file="drawn.png")


def _picture(mode: str = "RGB") -> SourcePicture:
    """Soft blobs, and slanted lines that run into every edge."""
    random = np.random.default_rng(4)
    planes = np.zeros((300, 400, 3))
    for size in (30, 60, 90):
        cells = random.integers(0, 256, (300 // size + 1, 400 // size + 1, 3), dtype=np.uint8)
        planes += np.asarray(Image.fromarray(cells).resize((400, 300), Image.Resampling.BICUBIC))
    pixels = (planes / 3).astype(np.uint8)
    rows, columns = np.mgrid[0:300, 0:400]
    pixels[(columns + rows) % 60 < 20] = (20, 30, 120)
    return _as_file(pixels, mode)


def _job(**parts: Any) -> Job:
    small = {
        "face": {"width_mm": 120, "height_mm": 90},
        "bars": {"depth_mm": 18},
        "sides": {"fill": "continued"},
    }
    return check_job(small | parts)


def _shown(job: Job, source: SourcePicture, *, ppi: float = 40.0) -> U8:
    canvas, done = _run(PreviewSource(source).canvas(job, pixel_grid(job, ppi=ppi)))
    assert done == sorted(done)
    return canvas


def test_the_same_picture_gives_the_same_sides() -> None:
    assert np.array_equal(_shown(_job(), _picture()), _shown(_job(), _picture()))


def test_the_face_is_left_as_it_is() -> None:
    job, mirrored = _job(), _job(sides={"fill": "mirror"})
    grid = pixel_grid(job, ppi=40)
    left, right, top, bottom = grid.columns[2], grid.columns[3], grid.rows[2], grid.rows[3]
    one, other = (_shown(either, _picture())[top:bottom, left:right] for either in (job, mirrored))
    assert np.array_equal(one, other)


def test_screen_and_print_show_the_same() -> None:
    picture, job = _picture(), _job()
    shown = _shown(job, picture, ppi=40).astype(int)
    printed, done = _run(render_canvas(picture, job, pixel_grid(job, ppi=160), channels=3))
    assert done == sorted(done)
    assert done[-1] == 1.0
    mirrored = _shown(_job(sides={"fill": "mirror"}), picture, ppi=40).astype(int)
    grid = pixel_grid(job, ppi=40)
    reduced = np.asarray(
        Image.fromarray(printed).resize((grid.width_px, grid.height_px), Image.Resampling.BOX)
    ).astype(int)
    for side in Side:
        mine, its = facing(shown, grid, side), facing(reduced, grid, side)
        other = facing(mirrored, grid, side)
        same = np.abs(mine.inked[..., :3] - its.inked).mean()
        # common practice: the two are sampled otherwise; another plan differs several times as much.
        assert same < np.abs(mine.inked - other.inked).mean() / 3


def test_only_what_changed_is_planned_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    planned: list[int] = []

    def counted(strip: U8, **options: Any) -> Any:
        planned.append(strip.shape[1])
        return plan_continued(strip, **options)

    monkeypatch.setattr(continued_sides, "plan_continued", counted)
    preview = PreviewSource(_picture())

    def show(**parts: Any) -> int:
        planned.clear()
        job = _job(**parts)
        _run(preview.canvas(job, pixel_grid(job, ppi=30)))
        return len(planned)

    assert show() == 4
    assert show(wrap={"finish": "lapped"}, name="Low tide") == 0
    assert show(sides={"fill": "continued", "top": {"fill": "mirror"}}) == 0
    # derived: top and bottom are planned on what left and right are; these rest on the picture alone.
    assert show(sides={"fill": "continued", "left": {"fill": "mirror"}}) == 2
    assert show() == 0
    assert show(bars={"depth_mm": 20}) == 4


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_grey_and_inks_go_on_in_print(mode: str) -> None:
    picture, job = _picture(mode), _job()
    canvas, _ = _run(render_canvas(picture, job, pixel_grid(job, ppi=40), channels=picture.channels))
    side = facing(canvas, pixel_grid(job, ppi=40), Side.TOP)
    first, second = side.along[1], side.along[2]
    one, next_one = (
        side.view[row, first:second].astype(int) for row in (side.front_edge - 1, side.front_edge)
    )
    # derived: a side begins half a pixel past the edge, so its first row is little else than the face's last.
    assert np.abs(one - next_one).mean() < np.abs(np.diff(one, axis=0)).mean()
    assert side.inked.std() > 5


@pytest.mark.parametrize("neighbour", ["mirror", "run-on", "drawn-out", "plain", "fade", "continued"])
def test_beside_every_other_fill_the_corner_squares_have_no_seam(neighbour: str) -> None:
    job = _job(sides={"fill": neighbour, "top": {"fill": "continued"}})
    canvas = _shown(job, _picture()).astype(float)[..., :3]
    grid = pixel_grid(job, ppi=40)
    # The square at the top left: top and bottom lie over left and right, so across its lower edge the left
    # side goes on and across its right edge the top side.
    top, left = grid.rows[2], grid.columns[2]
    within = np.abs(np.diff(canvas[grid.rows[1] : top, left : left + 40], axis=1)).mean()
    across = np.abs(canvas[grid.rows[1] : top, left] - canvas[grid.rows[1] : top, left - 1]).mean()
    # common practice: no more than twice what lies beside it.
    assert across <= 2 * within
    beside = canvas[top : top + 40, grid.columns[1] : left]
    down = np.abs(np.diff(beside, axis=0)).mean()
    below = np.abs(canvas[top, grid.columns[1] : left] - canvas[top - 1, grid.columns[1] : left]).mean()
    assert below <= 2 * down + 2


def test_one_colour_stays_one_colour() -> None:
    job = _job()
    grid = pixel_grid(job, ppi=30)
    canvas = _shown(job, _as_file(np.full((50, 60, 3), (90, 120, 60), np.uint8)), ppi=30)
    inked = canvas[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4], :3]
    assert (inked == (90, 120, 60)).all()


@pytest.mark.parametrize(
    "parts",
    [
        {"face": {"width_mm": 5000, "height_mm": 50}, "bars": {"depth_mm": 6}},
        {"face": {"width_mm": 50, "height_mm": 50}, "bars": {"depth_mm": 100}},
        {"face": {"width_mm": 120, "height_mm": 50}, "bars": {"depth_mm": 50}},
    ],
)
def test_bars_deeper_than_the_face_and_very_long_faces_serve(parts: dict[str, Any]) -> None:
    job = _job(**parts)
    ppi = 40.0 if job.face.width_mm < 1000 else 12.0
    grid = pixel_grid(job, ppi=ppi)
    canvas = _shown(job, _picture(), ppi=ppi)
    for side in Side:
        assert facing(canvas, grid, side).inked[..., :3].std() > 5


def test_a_turned_picture_goes_on_from_what_lies_at_its_edges() -> None:
    """The left half is black: turned clockwise it is the upper one, and so is what goes on at the top."""
    pixels = np.full((200, 200, 3), 230, np.uint8)
    pixels[:, :100] = 20
    job = _job(picture={"turn": 90}, face={"width_mm": 100, "height_mm": 100})
    grid = pixel_grid(job, ppi=40)
    canvas = _shown(job, _as_file(pixels))
    assert facing(canvas, grid, Side.TOP).inked[..., :3].max() < 60
    assert facing(canvas, grid, Side.BOTTOM).inked[..., :3].min() > 190
