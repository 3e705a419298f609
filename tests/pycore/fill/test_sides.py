"""The four sides and their corners, against numpy.pad and OpenCV, in every mixture."""

from __future__ import annotations

import timeit
from collections.abc import Callable
from typing import Any

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.colour.icc.tone_curves import decode_table
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.errors import GeometryError
from pycore.fill.checks import picture_area
from pycore.fill.facing import U8, facing
from pycore.fill.sides import fill_sides
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.tones import tones

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

_PPI = 25.4  # One pixel per mm.


def _job(sides: dict[str, Any], **more: Any) -> Job:
    small = {
        "face": {"width_mm": 90, "height_mm": 70},
        "bars": {"depth_mm": 20},
        "wrap": {"turnover_mm": 12, "ink_over_mm": 5},
    }
    return check_job(small | {"sides": sides} | more)


def _filled(job: Job, *, channels: int = 3, smooth: bool = False) -> tuple[U8, U8, PixelGrid]:
    """The filled canvas, what the picture held of it, and its lines."""
    grid = pixel_grid(job, ppi=_PPI)
    left, top, right, bottom = picture_area(grid, job)
    rows, columns = np.mgrid[0 : bottom - top, 0 : right - left]
    if smooth:
        planes = [60 + rows, 90 + columns, 200 - rows // 2 - columns // 2]
        picture = np.stack(planes[: min(channels, 3)], axis=2).astype(np.uint8)
    else:
        picture = np.random.default_rng(1).integers(
            0, 256, (bottom - top, right - left, min(channels, 3)), dtype=np.uint8
        )
    canvas = np.full((grid.height_px, grid.width_px, channels), 255, np.uint8)
    canvas[top:bottom, left:right, : picture.shape[2]] = picture
    tables = tones(decode_table(None), channels=3) if channels > 1 else tones(None, channels=1)
    shares = list(fill_sides(canvas, grid, job, tones=tables))
    assert shares[-1] == 1.0
    assert shares == sorted(shares)
    return canvas, picture, grid


def _padded(picture: U8, grid: PixelGrid, job: Job, mode: Any) -> U8:
    left, top, right, bottom = picture_area(grid, job)
    amounts = ((top - grid.rows[1], grid.rows[4] - bottom), (left - grid.columns[1], grid.columns[4] - right))
    return np.pad(picture, (*amounts, (0, 0)), mode=mode)


def _inked(canvas: U8, grid: PixelGrid) -> U8:
    return canvas[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4]]


@settings(max_examples=40, deadline=None)
@given(
    st.floats(60, 140),
    st.floats(60, 140),
    st.floats(6, 40),
    st.floats(0, 15),
    st.sampled_from(["tucked", "lapped", "trimmed"]),
)
def test_mirror_without_softness_is_numpys_symmetric(
    width: float, height: float, depth: float, ink_over: float, finish: str
) -> None:
    job = check_job(
        {
            "face": {"width_mm": width, "height_mm": height},
            "bars": {"depth_mm": depth},
            "wrap": {"turnover_mm": 16, "ink_over_mm": ink_over, "finish": finish, "tab_mm": 3},
        }
    )
    canvas, picture, grid = _filled(job)
    assert (_inked(canvas, grid) == _padded(picture, grid, job, "symmetric")).all()


@pytest.mark.native
@pytest.mark.parametrize("channels", [1, 3, 4])
def test_mirror_and_draw_out_against_two_libraries(channels: int) -> None:
    for fill, mode, border in (
        ("mirror", "symmetric", cv2.BORDER_REFLECT),
        ("drawn-out", "edge", cv2.BORDER_REPLICATE),
    ):
        job = _job({"fill": fill, "band_mm": 0})
        canvas, picture, grid = _filled(job, channels=channels)
        inked = _inked(canvas, grid)[..., : picture.shape[2]]
        assert (inked == _padded(picture, grid, job, mode)).all()
        c, r = grid.columns, grid.rows
        by_opencv = cv2.copyMakeBorder(picture, r[2] - r[1], r[4] - r[3], c[2] - c[1], c[4] - c[3], border)
        assert (inked == by_opencv.reshape(inked.shape)).all()


_SIDE = st.fixed_dictionaries(
    {
        "fill": st.sampled_from(["run-on", "mirror", "drawn-out", "plain", "fade"]),
        "blur_mm": st.sampled_from([0.0, 1.5, 30.0]),
        "band_mm": st.sampled_from([0.0, 3.0]),
        "colour": st.sampled_from(["edge", "#d8cbb4"]),
    }
)


@settings(max_examples=60, deadline=None)
@given(_SIDE, _SIDE, _SIDE, _SIDE, st.sampled_from(["top-bottom", "left-right"]))
def test_every_mixture_keeps_the_picture_and_the_bare_canvas(
    top: Any, right: Any, bottom: Any, left: Any, over: str
) -> None:
    job = _job(
        {"top": top, "right": right, "bottom": bottom, "left": left},
        wrap={"turnover_mm": 12, "ink_over_mm": 5, "over": over},
    )
    canvas, picture, grid = _filled(job, channels=4)
    x0, y0, x1, y1 = picture_area(grid, job)
    assert (canvas[y0:y1, x0:x1, :3] == picture).all()
    assert (canvas[..., 3] == 255).all()
    outside = np.ones(canvas.shape[:2], bool)
    outside[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4]] = False
    assert (canvas[outside] == 255).all()


@settings(max_examples=40, deadline=None)
@given(_SIDE, _SIDE, st.sampled_from(["top-bottom", "left-right"]))
def test_a_corner_square_joins_its_neighbours(upright: Any, level: Any, over: str) -> None:
    """A smooth picture and fills that begin at the edge: no step across either border of a corner square.

    Derived: the picture's steepest step is 1 code a pixel; reflected and blurred it is no steeper. A plain
    colour meets its neighbour as abruptly as it meets the face, so it is left out here. Across a border the
    weights change by up to 1 / (reach + 1/2) a pixel of a difference of up to 60 codes: 3 codes.
    """
    for side in (upright, level):
        if side["fill"] == "plain":
            side["fill"] = "drawn-out"
    job = _job(
        {"top": upright, "bottom": upright, "left": level, "right": level},
        wrap={"turnover_mm": 12, "ink_over_mm": 5, "over": over},
    )
    canvas, _, grid = _filled(job, smooth=True)
    for name in (Side.TOP, Side.BOTTOM, Side.LEFT, Side.RIGHT):
        side = facing(canvas, grid, name)
        for border in side.along[1:3]:
            strip = side.view[side.front_edge : side.end].astype(int)
            # The first pixels beside the face's corner, where all weights meet, are a point and no seam.
            step = np.abs(strip[4:, border] - strip[4:, border - 1])
            assert step.max() <= 8


def test_the_lapped_flap_carries_the_under_pairs_strip_on() -> None:
    """Derived: left and right are the under pair; the flap is p >= q in the corner square (fold.md 7)."""
    for over, under_sides in (("top-bottom", ("left", "right")), ("left-right", ("top", "bottom"))):
        sides: dict[str, Any] = {side: {"fill": "plain", "colour": "#ff0000"} for side in under_sides}
        others = {"top", "right", "bottom", "left"} - set(under_sides)
        sides |= {side: {"fill": "plain", "colour": "#0000ff"} for side in others}
        job = _job(sides, wrap={"turnover_mm": 12, "ink_over_mm": 5, "finish": "lapped", "over": over})
        canvas, _, grid = _filled(job)
        corner = canvas[grid.rows[3] : grid.rows[4], grid.columns[3] : grid.columns[4]]
        rows, columns = np.indices(corner.shape[:2])
        flap = columns >= rows if over == "top-bottom" else rows >= columns
        assert (corner[flap] == (255, 0, 0)).all()
        far = (columns == 0) & (rows > 15) if over == "top-bottom" else (rows == 0) & (columns > 15)
        assert (corner[far][:, 2] > 245).all()


def test_run_on_lets_the_picture_go_round_and_mirrors_past_the_back_edge() -> None:
    job = _job({"fill": "run-on"})
    canvas, picture, grid = _filled(job)
    assert picture_area(grid, job) == (
        grid.back_columns[0],
        grid.back_rows[0],
        grid.back_columns[1],
        grid.back_rows[1],
    )
    assert (_inked(canvas, grid) == _padded(picture, grid, job, "symmetric")).all()


def test_run_on_at_one_side_only() -> None:
    job = _job({"fill": "mirror", "right": {"fill": "run-on"}})
    canvas, picture, grid = _filled(job)
    assert picture.shape[1] == grid.back_columns[1] - grid.columns[2]
    assert (_inked(canvas, grid) == _padded(picture, grid, job, "symmetric")).all()


def test_plain_is_the_colour_that_was_asked_for() -> None:
    job = _job({"fill": "plain", "colour": "#d8cbb4"})
    canvas, _, grid = _filled(job)
    c, r = grid.columns, grid.rows
    canvas[r[2] : r[3], c[2] : c[3]] = (0xD8, 0xCB, 0xB4)
    assert (_inked(canvas, grid) == (0xD8, 0xCB, 0xB4)).all()


def test_plain_edge_colour_is_the_mean_light_of_the_band() -> None:
    """Derived: a band half black, half white has half the light: 188 in sRGB (187.5 rounded)."""
    job = _job({"fill": "mirror", "right": {"fill": "plain", "colour": "edge", "band_mm": 4}})
    grid = pixel_grid(job, ppi=_PPI)
    left, top, right, bottom = picture_area(grid, job)
    canvas = np.full((grid.height_px, grid.width_px, 3), 255, np.uint8)
    canvas[top:bottom, left:right] = 40
    canvas[top:bottom, right - 4 : right - 2] = 0
    canvas[top:bottom, right - 2 : right] = 255
    for _ in fill_sides(canvas, grid, job, tones=tones(decode_table(None), channels=3)):
        pass
    assert (canvas[top:bottom, right : grid.columns[4]] == 188).all()


def test_a_band_is_rounded_half_up_to_pixels() -> None:
    """Derived: at one pixel a mm, 2.5 mm are 3 pixels, of which two are white.

    Their light is 2/3, which sRGB encodes as 1.055 x (2/3)^(1/2.4) - 0.055 = 0.8360: 213. Of two pixels it
    would be 255.
    """
    job = _job({"fill": "mirror", "right": {"fill": "drawn-out", "band_mm": 2.5}})
    grid = pixel_grid(job, ppi=_PPI)
    left, top, right, bottom = picture_area(grid, job)
    canvas = np.full((grid.height_px, grid.width_px, 3), 255, np.uint8)
    canvas[top:bottom, left : right - 2] = 0
    for _ in fill_sides(canvas, grid, job, tones=tones(decode_table(None), channels=3)):
        pass
    past = canvas[top:bottom, right : grid.columns[4]]
    assert (past[:, :2] == 255).all()
    assert (past[:, 2:] == 213).all()


def test_fade_begins_as_the_picture_and_ends_as_the_colour() -> None:
    job = _job({"fill": "fade", "colour": "#d8cbb4"})
    canvas, _, grid = _filled(job, smooth=True)
    side = facing(canvas, grid, Side.RIGHT)
    face = side.view[side.front_edge - 1, side.along[1] : side.along[2]].astype(int)
    first = side.view[side.front_edge, side.along[1] : side.along[2]].astype(int)
    assert np.abs(first - face).max() <= 2
    beyond = side.view[side.back : side.end, side.along[1] : side.along[2]]
    assert (beyond == (0xD8, 0xCB, 0xB4)).all()


def test_a_blur_has_no_seam_at_the_front_edge() -> None:
    """Derived: half a pixel past the front edge the blur is 2 * 0.5 / 20 = 0.05 pixels.

    That is 0.05 ** 2 / 0.5 = 0.005 of the first smoothing, which moves the light by less than 0.005.
    """
    light = tones(decode_table(None), channels=3).light[0]
    job = _job({"fill": "mirror", "blur_mm": 2})
    canvas, _, grid = _filled(job)
    for name in Side:
        side = facing(canvas, grid, name)
        face = light[side.view[side.front_edge - 1, side.along[1] : side.along[2]]]
        first = light[side.view[side.front_edge, side.along[1] : side.along[2]]]
        # Half a code more for rounding to 8 bits: near white a code is 0.009 of the light.
        assert np.abs(first - face).max() <= 0.005 + 0.0045


def test_softness_follows_each_side() -> None:
    """Only the right side is soft: along the left one the reflection stays exact."""
    job = _job({"fill": "mirror", "right": {"blur_mm": 10}})
    canvas, picture, grid = _filled(job)
    sharp = _padded(picture, grid, job, "symmetric")
    inked = _inked(canvas, grid)
    across = grid.columns[3] - grid.columns[1]
    assert (inked[:, :across] == sharp[:, :across]).all()
    assert inked[20:60, across + 18].std() < 0.3 * sharp[20:60, across + 18].std()


def test_a_mirror_costs_little() -> None:
    """At 2 megapixels, against numpy.pad and one copy in the same interpreter; the least of several runs."""
    job = check_job({})
    grid = pixel_grid(job, ppi=75)
    left, top, right, bottom = picture_area(grid, job)
    canvas = np.full((grid.height_px, grid.width_px, 4), 200, np.uint8)
    face, tables = canvas[top:bottom, left:right].copy(), tones(decode_table(None), channels=3)

    def fill() -> None:
        for _ in fill_sides(canvas, grid, job, tones=tables):
            pass

    def pad() -> None:
        _padded(face, grid, job, "symmetric").copy()

    assert _least_time(fill) < 4 * _least_time(pad)


def _least_time(work: Callable[[], None]) -> float:
    return min(timeit.repeat(work, number=1, repeat=7))


def test_a_mirror_deeper_than_the_picture_is_an_error() -> None:
    """Derived: a face of 50 mm cannot be reflected over 45 + 10 mm; with 40 + 10 mm it just can."""
    shallow = {"face": {"width_mm": 50, "height_mm": 200}, "canvas": {"thickness_mm": 0}}
    wrap = {"turnover_mm": 25, "ink_over_mm": 10}
    deep = check_job(shallow | {"bars": {"depth_mm": 45}, "wrap": wrap})
    with pytest.raises(GeometryError) as caught:
        _filled(deep)
    assert caught.value.field == "bars.depth_mm"
    assert (caught.value.expected[:15], caught.value.got) == ("at most 40.0 mm", "45 mm")
    assert "right side" in caught.value.expected
    assert "drawn-out or plain" in caught.value.remedy
    _filled(check_job(shallow | {"bars": {"depth_mm": 40}, "wrap": wrap}))
    # One pixel, here 1 mm, more than the face has is already too much.
    with pytest.raises(GeometryError, match=r"at most 40\.0 mm.*you gave 41 mm"):
        _filled(check_job(shallow | {"bars": {"depth_mm": 41}, "wrap": wrap}))
    for fill in ("drawn-out", "plain"):
        _filled(check_job(shallow | {"bars": {"depth_mm": 45}, "wrap": wrap, "sides": {"fill": fill}}))


def test_a_band_wider_than_the_face_is_an_error() -> None:
    job = check_job(
        {"face": {"width_mm": 60, "height_mm": 60}, "sides": {"fill": "drawn-out", "band_mm": 80}}
    )
    with pytest.raises(GeometryError, match=r"^The averaged band must be at most 61\.0 mm"):
        _filled(job)
    own = {"fill": "drawn-out", "band_mm": 80}
    job = check_job({"face": {"width_mm": 60, "height_mm": 60}, "sides": {"left": own}})
    with pytest.raises(GeometryError, match=r"^The averaged band \(left\)"):
        _filled(job)
