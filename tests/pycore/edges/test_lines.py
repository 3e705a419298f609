"""What a mirror breaks: drawn lines at known angles, contrast, texture."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.conventions import Side
from pycore.edges.gradients import F64, tensor
from pycore.edges.lines import broken

from .drawn import DEPTH, HIGH, drawn, judged, line, noise


@pytest.mark.parametrize("degrees", [30, 45, 60, 120, 135, 150])
def test_an_aslant_line_is_broken(degrees: float) -> None:
    assert judged(line(degrees))[Side.LEFT].broken > 0.8


@pytest.mark.parametrize("degrees", [45, 135])
def test_an_aslant_edge_is_broken(degrees: float) -> None:
    slope = 1 / np.tan(np.radians(degrees))
    assert judged(drawn(lambda x, y: y < HIGH / 2 + slope * x))[Side.LEFT].broken > 0.8


@pytest.mark.parametrize("degrees", [84, 90, 96])
def test_a_line_across_the_edge_is_not(degrees: float) -> None:
    assert judged(line(degrees))[Side.LEFT].broken < 0.1


@pytest.mark.parametrize("distance", [0, 3, 10, 25])
def test_a_line_along_the_edge_is_not(distance: float) -> None:
    along = drawn(lambda x, _y: np.abs(x - distance) < 2)
    assert judged(along)[Side.LEFT].broken == 0


def test_a_line_that_ends_before_the_edge_is_not() -> None:
    aslant = drawn(lambda x, y: (np.abs(x - y) < 3) & (x > 20) & (y > 60))
    found = judged(aslant)
    assert found[Side.LEFT].broken == 0
    # The same line does reach the bottom, at 45 degrees.
    assert found[Side.BOTTOM].broken > 0.8


def test_texture_without_a_direction_is_not() -> None:
    assert all(one.broken < 0.1 for one in judged(noise()).values())


def test_hatching_is_broken_on_every_side() -> None:
    hatched = drawn(lambda x, y: (x + y) % 12 < 6)
    assert all(one.broken > 0.9 for one in judged(hatched).values())


@cache
def shape() -> F64:
    """A slanting line beside the edge: 0, and 1 where it is."""
    strip: F64 = line(45, contrast=1.0).swapaxes(0, 1)[: DEPTH + 1] - 0.2
    return strip


@given(st.floats(0.02, 0.38), st.floats(1.05, 2.0))
def test_more_contrast_is_broken_more(contrast: float, more: float) -> None:
    faint, plain = (
        broken(tensor(0.2 + one * shape()), depth_px=DEPTH) for one in (contrast, contrast * more)
    )
    assert 0 < faint < plain < 1
