"""Grown sides from the picture to the canvas: seeded, repeatable, the same on screen and in print, kept."""

from __future__ import annotations

import io
from collections.abc import Generator
from typing import Any, TypeVar

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.errors import GeometryError
from pycore.fill.facing import U8, facing
from pycore.fill.grown_plan import plan_side
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.progress import Progress, map_progress, run_to_end
from pycore.render import growth
from pycore.render.canvas import render_canvas
from pycore.render.preview import PreviewSource

Ended = TypeVar("Ended")


def _run(steps: Generator[Progress, None, Ended]) -> tuple[Ended, list[float]]:
    done: list[float] = []
    return run_to_end(map_progress(steps, lambda step: done.append(step.done))), done


def _picture(mode: str = "RGB") -> SourcePicture:
    """Blobs of every size, so that there is something to match."""
    random = np.random.default_rng(4)
    planes = np.zeros((300, 400, 3))
    for size in (5, 20, 60):
        cells = random.integers(0, 256, (300 // size + 1, 400 // size + 1, 3), dtype=np.uint8)
        planes += np.asarray(Image.fromarray(cells).resize((400, 300), Image.Resampling.BICUBIC))
    file = io.BytesIO()
    image = Image.fromarray((planes / 3).astype(np.uint8)).convert(mode)
    image.save(file, "TIFF" if mode == "CMYK" else "PNG")
    return read_picture(file.getvalue(), file="blobs.png")


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


def test_the_same_number_grows_the_same_sides_and_another_others() -> None:
    picture = _picture()
    first = _shown(_job(), picture)
    assert np.array_equal(first, _shown(_job(), picture))
    other = _shown(_job(sides={"fill": "continued", "seed": 2}), picture)
    grid = pixel_grid(_job(), ppi=40)
    for side in Side:
        mine, its = facing(first, grid, side), facing(other, grid, side)
        assert np.array_equal(mine.face, its.face)
        # derived: blobs of three sizes stray by tens of values; sides from other places differ as much.
        assert np.abs(mine.inked.astype(int) - its.inked).mean() > 5


def test_screen_and_print_show_the_same_pieces() -> None:
    picture, job = _picture(), _job()
    shown = _shown(job, picture, ppi=40).astype(int)
    printed, done = _run(render_canvas(picture, job, pixel_grid(job, ppi=160), channels=3))
    assert done == sorted(done)
    assert done[-1] == 1.0
    other = _shown(_job(sides={"fill": "continued", "seed": 2}), picture, ppi=40).astype(int)
    grid = pixel_grid(job, ppi=40)
    reduced = np.asarray(
        Image.fromarray(printed).resize((grid.width_px, grid.height_px), Image.Resampling.BOX)
    ).astype(int)
    for side in Side:
        mine, its = facing(shown, grid, side), facing(reduced, grid, side)
        another = facing(other, grid, side)
        same = np.abs(mine.inked[..., :3] - its.inked).mean()
        # Pieces fall on whole pixels of either canvas, so that they lie up to one of the screen's apart.
        assert same < np.abs(mine.inked - another.inked).mean() / 2


def test_only_what_changed_is_planned_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    planned = []

    def counted(side: Any, **options: Any) -> Any:
        planned.append(side.side)
        return plan_side(side, **options)

    monkeypatch.setattr(growth, "plan_side", counted)
    preview = PreviewSource(_picture())

    def show(**parts: Any) -> int:
        planned.clear()
        job = _job(**parts)
        _run(preview.canvas(job, pixel_grid(job, ppi=30)))
        return len(planned)

    assert show() == 4
    assert show(wrap={"finish": "lapped"}, name="Low tide") == 0
    assert show(sides={"fill": "continued", "top": {"fill": "mirror"}}) == 0
    assert show(sides={"fill": "continued", "seed": 2}) == 4
    assert show() == 0
    assert show(bars={"depth_mm": 20}) == 4


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_grey_and_inks_grow_in_print(mode: str) -> None:
    picture, job = _picture(mode), _job()
    canvas, _ = _run(render_canvas(picture, job, pixel_grid(job, ppi=40), channels=picture.channels))
    side = facing(canvas, pixel_grid(job, ppi=40), Side.TOP)
    first, second = side.along[1], side.along[2]
    # derived: the side begins with the face's own last row.
    assert np.array_equal(side.view[side.arris, first:second], side.view[side.arris - 1, first:second])
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
    file = io.BytesIO()
    Image.new("RGB", (60, 50), (90, 120, 60)).save(file, "PNG")
    job = _job()
    grid = pixel_grid(job, ppi=30)
    canvas = _shown(job, read_picture(file.getvalue(), file="flat.png"), ppi=30)
    inked = canvas[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4], :3]
    assert (inked == (90, 120, 60)).all()


def test_a_side_deeper_than_the_face_is_refused() -> None:
    job = _job(face={"width_mm": 120, "height_mm": 50}, bars={"depth_mm": 50})
    grid = pixel_grid(job, ppi=40)
    with pytest.raises(GeometryError, match=r"39\.7 mm for the top side.*“continued”") as caught:
        _run(PreviewSource(_picture()).canvas(job, grid))
    # derived: nine tenths of the face's 80 pixels are 72, or 45.7 mm, of which the bleed takes 6.
    assert caught.value.field == "bars.depth_mm"
    assert caught.value.got == "50 mm"


def test_the_smallest_face_grows() -> None:
    job = _job(face={"width_mm": 50, "height_mm": 50}, bars={"depth_mm": 38})
    assert _shown(job, _picture()).std() > 5


def test_a_turned_picture_grows_from_what_lies_at_its_edges() -> None:
    """The left half is black: turned clockwise it is the upper one, and so is what grows at the top."""
    pixels = np.full((200, 200, 3), 230, np.uint8)
    pixels[:, :100] = 20
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG")
    job = _job(picture={"turn": 90}, face={"width_mm": 100, "height_mm": 100})
    grid = pixel_grid(job, ppi=40)
    canvas = _shown(job, read_picture(file.getvalue(), file="halves.png"))
    assert facing(canvas, grid, Side.TOP).inked[..., :3].max() < 60
    assert facing(canvas, grid, Side.BOTTOM).inked[..., :3].min() > 190
