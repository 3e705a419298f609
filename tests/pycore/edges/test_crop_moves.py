"""Moves of the crop: the least that frees an edge, either way; none where the other edge is not free."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.conventions import Side
from pycore.edges.crop_moves import Surroundings, crop_move
from pycore.edges.things import cut_things
from pycore.fill.facing import U8

_DEPTH, _BEYOND = 40, 60


def around(*middles: tuple[int, int], left: int = _BEYOND, right: int = _BEYOND) -> Surroundings:
    """Discs with a radius of 25 on grey, at (column, row) of a picture of 320 x 160."""
    rows, columns = np.mgrid[0:160, 0:320]
    pixels: U8 = np.full((160, 320, 3), 150, np.uint8)
    for column, row in middles:
        pixels[(columns - column) ** 2 + (rows - row) ** 2 < 25**2] = (200, 60, 40)
    pixels = pixels[:, _BEYOND - left : 320 - _BEYOND + right]
    return Surroundings(pixels=pixels, top=0, right=right, bottom=0, left=left, depth_px=_DEPTH)


def move(found: Surroundings, side: Side) -> int:
    """The move for what that side cuts."""
    face = found.pixels[:, found.left : found.pixels.shape[1] - found.right].transpose(1, 0, 2)
    face = face if side is Side.LEFT else face[::-1]
    return crop_move(found, side, cut_things(face, depth_px=_DEPTH))


@pytest.mark.parametrize(
    ("column", "side", "least"),
    [
        # derived: the face runs from column 60 to 260. A disc about 80 ends 45 columns in and begins 5 out,
        # to which a third of 40 is added: outwards, to the left, is less. About 50 it ends 15 in.
        (80, Side.LEFT, -18),
        (50, Side.LEFT, 15),
        (240, Side.RIGHT, 18),
        (270, Side.RIGHT, -15),
    ],
)
def test_the_shorter_way_is_taken(column: int, side: Side, least: int) -> None:
    found = move(around((column, 80)), side)
    # common practice: an outline is found within a blur of two pixels, and two more clear it.
    assert found == pytest.approx(least, abs=4)


def test_where_the_picture_ends_the_other_way_is_taken() -> None:
    assert move(around((80, 80), left=0), Side.LEFT) > 40


def test_no_move_that_cuts_something_at_the_opposite_edge() -> None:
    # derived: moved to the left by 14 to 22, the right edge cuts the second disc, from 210 to 260; moved to
    # the right there is no picture.
    assert move(around((80, 80), (235, 80), right=0), Side.LEFT) == 0
    assert move(around((80, 80), right=0), Side.LEFT) != 0


def test_nothing_cut_nothing_moved() -> None:
    assert move(around((160, 80)), Side.LEFT) == 0
