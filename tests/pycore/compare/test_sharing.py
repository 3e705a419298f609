"""Whether a shallower variant's window in the deepest's texture holds what its own texture would."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from pycore.compare.sharing import Placement, depends_on_depth, placed, shared, texture_key
from pycore.compare.variants import depth_variants, fill_variants, finish_variants
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.fill.corners import over_weights
from pycore.fill.facing import facing
from pycore.fill.softness import ONE
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.tones import U8
from pycore.progress import run_to_end
from pycore.render.preview import PreviewSource

PPI = 60.0


@pytest.fixture(scope="module")
def preview() -> PreviewSource:
    """Noise: no two places look alike."""
    noise = np.random.default_rng(7).integers(0, 256, (450, 600, 3), np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, "PNG")
    return PreviewSource(read_picture(out.getvalue(), file="noise.png"))


def rendered(preview: PreviewSource, job: Job, grid: PixelGrid) -> U8:
    return run_to_end(preview.canvas(job, grid))


def window(canvas: U8, place: Placement) -> U8:
    return canvas[place.top : place.top + place.grid.height_px, place.left : place.left + place.grid.width_px]


def inked(canvas: U8, grid: PixelGrid) -> U8:
    return canvas[grid.rows[1] : grid.rows[4], grid.columns[1] : grid.columns[4]]


def without_corners(canvas: U8, grid: PixelGrid) -> list[U8]:
    """The face with top and bottom, and the face with left and right, ink-over with them."""
    rows, columns = grid.rows, grid.columns
    return [
        canvas[rows[1] : rows[4], columns[2] : columns[3]],
        canvas[rows[2] : rows[3], columns[1] : columns[4]],
    ]


SHARING: list[dict[str, Any]] = [
    {"fill": "mirror"},
    {"fill": "drawn-out", "band_mm": 4},
    {"fill": "plain"},
    {"fill": "plain", "colour": "#336699"},
    {"fill": "mirror", "left": {"fill": "drawn-out"}, "top": {"fill": "plain"}},
]


@pytest.mark.parametrize("sides", SHARING)
@pytest.mark.parametrize("depth_mm", [6, 18, 25.4, 38])
def test_the_window_equals_the_own_texture(
    preview: PreviewSource, sides: dict[str, Any], depth_mm: float
) -> None:
    job = check_job({"face": {"width_mm": 203, "height_mm": 151}, "sides": sides})
    shallow, deep = (one.job for one in depth_variants(job, [depth_mm, 50]))
    deepest = pixel_grid(deep, ppi=PPI)
    place = placed(pixel_grid(shallow, ppi=PPI), deepest)
    texture = window(rendered(preview, deep, deepest), place)
    own = rendered(preview, shallow, place.grid)
    for mine, shared_part in zip(
        without_corners(own, place.grid), without_corners(texture, place.grid), strict=True
    ):
        np.testing.assert_array_equal(shared_part, mine)
    # Where nothing is blended, or one colour with itself, the corner squares are the same too.
    if "plain" not in str(sides) or "colour" in sides:
        np.testing.assert_array_equal(inked(texture, place.grid), inked(own, place.grid))


@pytest.mark.parametrize("over", ["top-bottom", "left-right"])
def test_corner_squares_that_are_blended_differ_by_a_rounding_of_the_shares(over: str) -> None:
    # derived: the share 1 - p / q is of distances in bar depths, which are rounded to whole pixels across
    # and down: of two depths of 43 px (18 mm at 60 ppi) and 118 px (50 mm) at most one is a pixel off, so
    # that the share moves by at most 1 / 43. It is light, and of the triangle that never shows.
    job = check_job({"sides": {"fill": "mirror", "top": {"fill": "plain"}}, "wrap": {"over": over}})
    shallow, deep = (one.job for one in depth_variants(job, [18, 50]))
    deepest = pixel_grid(deep, ppi=PPI)
    place = placed(pixel_grid(shallow, ppi=PPI), deepest)
    shares = []
    for grid in (place.grid, deepest):
        canvas = np.zeros((grid.height_px, grid.width_px, 1), np.uint8)
        under, over_side = (facing(canvas, grid, side) for side in (Side.RIGHT, Side.TOP))
        shares.append(over_weights(under, over_side) / ONE)
    own, theirs = shares
    assert np.abs(own - theirs[: own.shape[0], : own.shape[1]]).max() <= 1 / 43


@pytest.mark.parametrize(
    "sides",
    [
        {"fill": "run-on"},
        {"fill": "fade"},
        {"fill": "mirror", "blur_mm": 4},
        {"fill": "plain", "right": {"fill": "run-on"}},
    ],
)
def test_what_depends_on_depth_is_not_shared(preview: PreviewSource, sides: dict[str, Any]) -> None:
    job = check_job({"face": {"width_mm": 203, "height_mm": 151}, "sides": sides})
    shallow, deep = (one.job for one in depth_variants(job, [18, 50]))
    assert depends_on_depth(job)
    assert texture_key(shallow) != texture_key(deep)
    # And it would be wrong to share it.
    deepest = pixel_grid(deep, ppi=PPI)
    place = placed(pixel_grid(shallow, ppi=PPI), deepest)
    texture = window(rendered(preview, deep, deepest), place)
    assert (inked(texture, place.grid) != inked(rendered(preview, shallow, place.grid), place.grid)).any()


def test_continued_has_a_texture_for_each_depth() -> None:
    job = check_job({"sides": {"fill": "continued"}})
    assert len({texture_key(one.job) for one in depth_variants(job, [18, 38])}) == 2


@settings(max_examples=50, deadline=None)
@given(
    shallow=st.floats(6, 100),
    more=st.floats(0, 60),
    width=st.floats(50, 900),
    stretch=st.floats(-5, 15),
    ppi=st.floats(20, 150),
)
def test_the_window_lies_within_a_pixel_of_its_place(
    shallow: float, more: float, width: float, stretch: float, ppi: float
) -> None:
    jobs = [
        check_job(
            {
                "face": {"width_mm": width, "height_mm": 300},
                "bars": {"depth_mm": depth},
                "canvas": {"stretch_percent": [stretch, 0]},
            }
        )
        for depth in (shallow, min(100.0, shallow + more))
    ]
    own, deepest = (pixel_grid(one, ppi=ppi) for one in jobs)
    place = placed(own, deepest)
    for mine, lines, deep, corner in (
        (own.columns, place.grid.columns, deepest.columns, place.left),
        (own.rows, place.grid.rows, deepest.rows, place.top),
    ):
        assert lines[0] == 0
        assert list(lines) == sorted(lines)
        # Front edge on front edge, nothing outside the texture, no ink where the deepest has none.
        assert (corner + lines[2], corner + lines[3]) == (deep[2], deep[3])
        assert corner >= 0
        assert corner + lines[1] >= deep[1]
        assert corner + lines[4] <= deep[4]
        assert corner + lines[5] <= deep[5]
        # derived: each of two lengths was rounded at both ends, by half a pixel each.
        assert max(abs(a - b) for a, b in zip(mine, lines, strict=True)) <= 2


def test_shared_takes_the_deepest_of_each_texture() -> None:
    depths = [one.job for one in depth_variants(Job(), [38, 18])]
    fills = [one.job for one in fill_variants(Job(), ["run-on", "plain"])]
    deepest, places = shared([depths[1], fills[0], depths[0], fills[1]])
    assert [job.sides.fill.value for job in deepest] == ["mirror", "run-on", "plain"]
    assert deepest[0].bars.depth_mm == 38
    assert places == [0, 1, 0, 2]


def test_finish_and_colour_need_no_texture_of_their_own() -> None:
    finishes = finish_variants(Job(), ["tucked", "lapped", "trimmed"])
    other = check_job({"colour": {"intent": "perceptual", "bring_in": 0.5}})
    assert len({texture_key(one) for one in [*(one.job for one in finishes), other]}) == 1


def test_what_a_fill_does_not_use_makes_no_difference() -> None:
    mirror = check_job({"sides": {"band_mm": 9, "colour": "#123456"}})
    assert texture_key(mirror) == texture_key(Job())
    other = check_job({"sides": {"fill": "drawn-out", "band_mm": 9}})
    assert texture_key(other) != texture_key(check_job({"sides": {"fill": "drawn-out"}}))


def test_what_is_enlarged_otherwise_shares_no_texture() -> None:
    drawing = check_job({"picture": {"enlarging": "drawing"}})
    assert texture_key(drawing) != texture_key(Job())
