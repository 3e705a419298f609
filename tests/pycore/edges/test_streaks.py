"""Streaks of an edge that is drawn straight out: narrow bands count, wide ones and steps do not.

Wide ones make it uneven.
"""

from __future__ import annotations

import numpy as np
import pytest

from pycore.edges.gradients import F64
from pycore.edges.streaks import streaked, uneven

_DEPTH = 36


def bands(*ends: tuple[int, int], value: float = 1.0) -> F64:
    """Three rows of black with bands of a value."""
    rows = np.zeros((3, 240, 3))
    for begin, end in ends:
        rows[:, begin:end] = value
    return rows


def test_a_horizon_and_a_wide_band_run_on() -> None:
    # derived: the median over less than half of a band, or over one step, is the colour itself.
    assert streaked(bands((120, 240)), depth_px=_DEPTH) == 0
    assert streaked(bands((60, 90)), depth_px=_DEPTH) == 0


def test_a_few_narrow_bands_are_seen() -> None:
    one, two = bands((50, 53)), bands((50, 53), (90, 93))
    # derived: three places that differ by 1 count 1 / (1 + 0.06**2) each; over the depth, against 0.24.
    width = 3 / 1.0036 / _DEPTH
    assert streaked(one, depth_px=_DEPTH) == pytest.approx(width / (width + 0.24))
    assert streaked(two, depth_px=_DEPTH) == pytest.approx(2 * width / (2 * width + 0.24))


def test_faint_bands_count_less_and_a_wider_average_leaves_fewer() -> None:
    assert streaked(bands((50, 53), value=0.02), depth_px=_DEPTH) < 0.05
    grains = np.random.default_rng(5).random((80, 240, 3)) / 4
    assert streaked(grains, depth_px=_DEPTH) < streaked(grains[:3], depth_px=_DEPTH) / 2


def test_an_edge_shorter_than_the_stretch_is_judged() -> None:
    assert streaked(np.full((1, 2, 3), 0.5), depth_px=_DEPTH) == 0


def test_an_edge_of_two_colours_is_uneven() -> None:
    half = np.zeros((3, 240, 3), np.uint8)
    half[:, 120:] = 30
    # derived: a grey of 30 is 195 sixteenths of a ΔE from black; half of that from their mean, against 12.
    away = 195 / 16 / 2
    assert uneven(half) == pytest.approx(away / (away + 12))
    # One narrow band hardly counts, and detail across the edge is averaged.
    narrow = np.zeros((3, 240, 3), np.uint8)
    narrow[:, 50:53] = 255
    assert uneven(narrow) < 0.25
    rows = np.zeros((4, 240, 3), np.uint8)
    rows[::2] = 90
    assert uneven(rows) == 0
