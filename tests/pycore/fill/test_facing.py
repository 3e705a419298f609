"""The canvas seen from each of its sides."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.conventions import Side
from pycore.fill.facing import copy_pixels, facing
from pycore.layout.grid import pixel_grid

from ..worked import worked_job

_GRID = pixel_grid(worked_job(), ppi=25.4)


def _canvas() -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    canvas = np.zeros((_GRID.height_px, _GRID.width_px, 3), np.uint8)
    c, r = _GRID.columns, _GRID.rows
    canvas[r[1] : r[4], c[1] : c[4]] = 1
    canvas[r[2] : r[3], c[2] : c[3]] = 2
    return canvas


@pytest.mark.parametrize("side", list(Side))
def test_outwards_comes_face_then_side_then_bare_canvas(side: Side) -> None:
    one = facing(_canvas(), _GRID, side)
    assert (one.face == 2).all()
    assert (one.inked == 1).all()
    assert (one.view[one.end :] == 0).all()
    assert one.view[one.front_edge - 1, one.along[1], 0] == 2
    assert one.front_edge < one.back < one.end < len(one.view)


@pytest.mark.parametrize("side", list(Side))
def test_depth_and_reach_are_those_of_the_job(side: Side) -> None:
    """Derived: at one pixel per mm a side of 38 mm is 38 deep, with 6 mm of bleed 44."""
    one = facing(_canvas(), _GRID, side)
    assert abs(one.depth - 38) <= 1
    assert abs(one.reach - 44) <= 1


def test_the_sides_are_views_that_write_through() -> None:
    for side, place in zip(Side, [(0, 9), (9, -1), (-1, 9), (9, 0)], strict=True):
        canvas = _canvas()
        facing(canvas, _GRID, side).view[-1, 9] = 77
        assert canvas[place].tolist() == [77, 77, 77]


@pytest.mark.parametrize("in_webassembly", [False, True])
@pytest.mark.parametrize("channels", [1, 2, 3, 4])
@pytest.mark.parametrize("kind", [np.uint8, np.uint16])
def test_pixels_are_copied_whatever_their_order(
    monkeypatch: pytest.MonkeyPatch, kind: type[np.generic], channels: int, in_webassembly: bool
) -> None:
    monkeypatch.setattr("pycore.fill.facing.IN_WEBASSEMBLY", in_webassembly)
    picture = np.arange(6 * 8 * channels).reshape(6, 8, channels).astype(kind)
    for one in (picture.copy(), picture.copy().transpose(1, 0, 2)):
        for source in (one[:3], one[:3][::-1], one[:3, ::-1], np.broadcast_to(one[2], one[:3].shape)):
            wanted = source.copy()
            copy_pixels(one[3:6], source)
            assert (one[3:6] == wanted).all()
