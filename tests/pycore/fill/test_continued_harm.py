"""Lines that are bent where they cross the edge."""

from __future__ import annotations

import numpy as np

from pycore.fill.continued_ground import I32, I64, STEPS
from pycore.fill.continued_harm import Change, bent_at_edge, change_of

DEPTH = 40
COLUMNS = 120


def change(lightness: I32) -> Change:
    """Of a strip in ΔE of lightness alone, row 0 at the edge."""
    steps = np.zeros((*lightness.shape, 3), np.int32)
    steps[..., 0] = lightness * STEPS
    return change_of(steps, DEPTH)


def vector(value: int) -> I32:
    return np.full(COLUMNS, value, np.int32)


ROWS, PLACES = np.mgrid[0:60, 0:COLUMNS].astype(np.int32)

#: Bands that run inwards to the right, one column a row: outwards their slope is -1.
SLANTED = np.where((PLACES - ROWS) % 24 < 12, 40, 0).astype(np.int32)


def _mean(values: I64) -> float:
    return float(values[20:-20].mean())


def test_along_slanted_lines_nothing_is_bent_and_across_them_more_than_by_a_mirror() -> None:
    there = change(SLANTED)
    along, upright, across = (
        _mean(bent_at_edge(there, vector(slope), vector(256), depth=DEPTH)) for slope in (-256, 0, 256)
    )
    # derived: a line of slope n goes on at 2 m - n. A mirror bends one of -1 by a right angle; at m = -1 it
    # goes on as it is. The edge row alone, which has the change of the next, has a rest.
    assert along < upright / 8
    assert across >= upright
