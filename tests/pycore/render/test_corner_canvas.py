"""A corner filled by itself shows what the whole canvas shows there."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageFilter

from pycore.contract.check import check_job
from pycore.contract.job import Fill, Job
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.tones import U8
from pycore.progress import run_to_end
from pycore.render.corner_canvas import CornerCanvas, corner_canvas
from pycore.render.corner_pick import CORNERS, corner_panel, telling_corner, with_fill
from pycore.render.preview import PreviewSource

FACE_MM = 38.0
PX_PER_MM = 3.0


def blobs(width: int = 1200, height: int = 800, **options: Any) -> PreviewSource:
    """Soft blobs, as photographs have them."""
    coarse = np.random.default_rng(5).integers(0, 256, (9, 12, 3), dtype=np.uint8)
    image = Image.fromarray(coarse).resize((width, height), Image.Resampling.BICUBIC)
    return kept(image.filter(ImageFilter.GaussianBlur(2)), **options)


def kept(image: Image.Image, **options: Any) -> PreviewSource:
    out = io.BytesIO()
    image.save(out, "PNG", **options)
    return PreviewSource(read_picture(out.getvalue(), file="blobs.png"))


def job_of(**more: Any) -> Job:
    return check_job({"face": {"width_mm": 200, "height_mm": 150}, "bars": {"depth_mm": 20}} | more)


def corner_of(preview: PreviewSource, job: Job, corner: str) -> CornerCanvas:
    return run_to_end(corner_canvas(preview, job, corner=corner, face_mm=FACE_MM, px_per_mm=PX_PER_MM))


def at(canvas: CornerCanvas, across: Any, down: Any) -> U8:
    places = canvas.places(np.asarray(across, np.float32), np.asarray(down, np.float32))
    return canvas.pixels.reshape(-1, 4)[places][:, :3]


@cache
def opened_blobs() -> PreviewSource:
    return blobs()


@cache
def filled_job(fill: Fill, turn: int) -> Job:
    return with_fill(job_of(picture={"turn": turn}, sides={"blur_mm": 2}), fill)


@cache
def whole_canvas(fill: Fill, turn: int) -> tuple[PixelGrid, U8]:
    """The whole canvas, rendered as the stage does."""
    job = filled_job(fill, turn)
    grid = pixel_grid(job, ppi=PX_PER_MM * 25.4)
    return grid, run_to_end(opened_blobs().canvas(job, grid))


def whole_at(fill: Fill, turn: int, corner: str, across: Any, down: Any) -> U8:
    """The same places on the whole canvas."""
    grid, pixels = whole_canvas(fill, turn)
    right, top = corner.endswith("right"), corner.startswith("top")
    column = grid.columns[3] + across * PX_PER_MM if right else grid.columns[2] - 1 - across * PX_PER_MM
    row = grid.rows[2] - 1 - down * PX_PER_MM if top else grid.rows[3] + down * PX_PER_MM
    return pixels[np.floor(row).astype(int), np.floor(column).astype(int), :3]


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("fill", [fill for fill in Fill if fill is not Fill.CONTINUED])
@pytest.mark.parametrize("turn", [0, 90])
def test_a_corner_is_that_of_the_whole(fill: Fill, corner: str, turn: int) -> None:
    """Derived: the picture's steepest slope is about 6 levels a pixel; the two differ by up to a pixel."""
    chance = np.random.default_rng(7)
    across, down = chance.uniform(-36, 19, (2, 400))
    ours = at(corner_of(opened_blobs(), filled_job(fill, turn), corner), across, down).astype(int)
    theirs = whole_at(fill, turn, corner, across, down).astype(int)
    difference = np.abs(ours - theirs)
    assert np.median(difference) <= 3
    assert np.mean(difference > 14) < 0.02


def test_the_edges_mean_colour_is_that_of_the_whole_edge() -> None:
    """Derived: the right edge is half black, half white; half of linear light is 188 of 255 in sRGB."""
    pixels = np.zeros((400, 600, 3), np.uint8)
    pixels[200:] = 255
    preview = kept(Image.fromarray(pixels))
    job = with_fill(job_of(face={"width_mm": 150, "height_mm": 100}), Fill.PLAIN)
    shown = at(corner_of(preview, job, "top-right"), [10.0], [-20.0])
    assert np.abs(shown.astype(int) - 188).max() <= 1


def test_a_colour_of_ones_own_is_shown_as_it_is() -> None:
    job = with_fill(job_of(sides={"colour": "#204060"}), Fill.PLAIN)
    assert at(corner_of(blobs(), job, "bottom-left"), [5.0], [-20.0]).tolist() == [[0x20, 0x40, 0x60]]


def test_a_side_of_its_own_keeps_its_fill() -> None:
    job = job_of(sides={"fill": "mirror", "top": {"fill": "plain", "colour": "#112233"}})
    canvas = corner_of(blobs(), job, "top-right")
    assert at(canvas, [-20.0], [10.0]).tolist() == [[0x11, 0x22, 0x33]]
    assert at(canvas, [10.0], [-20.0]).tolist() != [[0x11, 0x22, 0x33]]


def test_continued_lines_come_from_the_whole_canvas() -> None:
    preview = blobs(600, 400)
    job = with_fill(job_of(), Fill.CONTINUED)
    canvas = corner_of(preview, job, "top-right")
    grid = pixel_grid(job, ppi=PX_PER_MM * 25.4)
    if canvas.pixels.shape[:2] == (grid.height_px, grid.width_px):
        assert np.array_equal(canvas.pixels, run_to_end(preview.canvas(job, grid)))
    else:
        # Coarser than asked for, since the whole of it is made.
        assert canvas.pixels.shape[0] * canvas.pixels.shape[1] <= 400_000


def test_the_corner_with_most_in_it_is_picked() -> None:
    pixels = np.full((400, 600, 3), 128, np.uint8)
    pixels[320:, :60] = 0
    assert telling_corner(kept(Image.fromarray(pixels)), job_of(), face_mm=FACE_MM) == "bottom-left"


def test_what_varies_along_one_edge_alone_tells_less() -> None:
    """Stripes level with the top edge say nothing of the right side; a check says something of both."""
    pixels = np.full((400, 600, 3), 128, np.uint8)
    pixels[:80][np.arange(80) % 40 < 20] = 0
    rows, columns = np.mgrid[0:80, 0:80]
    pixels[:80, :80] = 128 + 60 * ((rows // 20 + columns // 20) % 2)[..., np.newaxis]
    assert telling_corner(kept(Image.fromarray(pixels)), job_of(), face_mm=FACE_MM) == "top-left"


def test_a_corner_whose_sides_have_fills_of_their_own_is_not_picked() -> None:
    pixels = np.full((400, 600, 3), 128, np.uint8)
    pixels[320:, :60] = 0
    job = job_of(sides={"left": {"fill": "plain"}, "bottom": {"fill": "plain"}})
    assert telling_corner(kept(Image.fromarray(pixels)), job, face_mm=FACE_MM) == "top-right"


def test_what_all_sides_show_does_not_move_the_corner() -> None:
    preview = blobs()
    found = {telling_corner(preview, with_fill(job_of(), fill), face_mm=FACE_MM) for fill in Fill}
    assert len(found) == 1


def test_a_groups_corner_is_its_outer_panels() -> None:
    preview = blobs()
    job = job_of(group={"panels": 3}, face={"width_mm": 100, "height_mm": 100})
    left, right = (corner_panel(preview, job, corner) for corner in ("top-left", "top-right"))
    assert left.picture.crop is not None
    assert right.picture.crop is not None
    assert left.picture.crop.x == pytest.approx(0.0, abs=0.2)
    assert right.picture.crop.x > left.picture.crop.x + 0.3
