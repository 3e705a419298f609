"""Corner squares follow both neighbours."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.fill.corners import blend_square, over_weights, square_of
from pycore.fill.facing import facing
from pycore.fill.softness import ONE
from pycore.layout.grid import pixel_grid


def test_the_flap_belongs_to_the_under_pair() -> None:
    """Derived: fold.md's flap is p >= q; there the over pair has no weight.

    At its own border it has all but the share of half a pixel in the depth of the square.
    """
    grid = pixel_grid(Job(), ppi=25.4)
    canvas = np.zeros((grid.height_px, grid.width_px, 3), np.uint8)
    under, over = facing(canvas, grid, Side.RIGHT), facing(canvas, grid, Side.TOP)
    weights = over_weights(under, over)
    assert weights.shape == (over.reach, under.reach)
    q, p = np.indices(weights.shape)
    assert (weights[(p + 0.5) / under.depth >= (q + 0.5) / over.depth] == 0).all()
    last = over.reach - 1
    assert weights[last, 0] == np.floor((1 - (0.5 / under.depth) / ((last + 0.5) / over.depth)) * ONE)
    assert (np.diff(weights.astype(np.int64), axis=1) <= 0).all()
    assert (np.diff(weights.astype(np.int64), axis=0) >= 0).all()


@pytest.mark.parametrize("side", list(Side))
def test_a_square_lies_at_its_neighbours_edge(side: Side) -> None:
    """Derived: pixels numbered by their distance past the neighbour's edge must begin with the first."""
    grid = pixel_grid(Job(), ppi=25.4)
    upright = side in (Side.TOP, Side.BOTTOM)
    for neighbour in (Side.LEFT, Side.RIGHT) if upright else (Side.TOP, Side.BOTTOM):
        canvas = np.zeros((grid.height_px, grid.width_px, 1), np.uint8)
        there = facing(canvas, grid, neighbour)
        there.view[there.front_edge : there.end] = np.arange(1, there.reach + 1).reshape(-1, 1, 1)
        one = facing(canvas, grid, side)
        square = square_of(one.inked, one, neighbour)
        assert square.shape == (one.reach, there.reach, 1)
        assert (square[..., 0] == np.arange(1, there.reach + 1)).all()


def test_blending_turns_the_under_strip_to_the_squares_axes() -> None:
    under = np.array([[10, 20, 30], [40, 50, 60]], np.uint16)  # (under reach 2, over reach 3)
    over = np.zeros((3, 2), np.uint16)
    none = np.zeros((3, 2), np.uint32)
    assert blend_square(under, over, none).tolist() == [[10, 40], [20, 50], [30, 60]]
    assert (blend_square(under, over, none + np.uint32(ONE)) == 0).all()
