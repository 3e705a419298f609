"""How unlike its reflection a strip is: posts, slopes, texture, shapes, and an even and an odd strip."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.conventions import Side
from pycore.edges.gradients import F64
from pycore.edges.symmetry import unlike_reflection

from .drawn import DEPTH, disc, drawn, judged, noise


def strip(values: F64) -> F64:
    """Beside the left front edge."""
    return values.swapaxes(0, 1)[:DEPTH]


def test_posts_are_their_own_reflection() -> None:
    posts = drawn(lambda _x, y: y % 30 < 15)
    assert unlike_reflection(strip(posts), half=12).max() == pytest.approx(0, abs=1e-12)


def test_a_slope_towards_the_edge_is_all_odd() -> None:
    slope = drawn(lambda x, _y: x / 400)
    assert unlike_reflection(strip(slope), half=12).min() == pytest.approx(1, abs=1e-9)


def test_texture_is_odd_by_one_half() -> None:
    found = unlike_reflection(strip(noise()), half=12)
    # Derived: odd and even parts of independent values vary alike; the largest of three is over it.
    assert 0.45 < found.mean() < 0.6


@pytest.mark.parametrize("distance", [0, 12, 19, 26])
def test_no_place_makes_a_disc_alike_its_reflection(distance: float) -> None:
    found = unlike_reflection(strip(disc(distance)), half=12)
    assert found[150] > 0.25


@given(st.integers(1, 40), st.integers(0, 2**31 - 1))
def test_shares_are_shares(rows: int, seed: int) -> None:
    found = unlike_reflection(np.random.default_rng(seed).random((rows, 9, 3)), half=2)
    assert found.shape == (9,)
    assert np.all((found >= 0) & (found <= 1))


def test_blots_that_run_on_from_the_edge_are_doubled_less() -> None:
    """Bars that run straight in, and blots in their place: bars mirror into themselves."""
    ordered = drawn(lambda x, y: ((y % 60 - 30) ** 2 < 100) & (x < 60))
    strewn = drawn(lambda x, y: ((y % 60 - 30) ** 2 + (x - 14) ** 2 < 100) & (x < 60))
    assert judged(ordered)[Side.LEFT].doubled < judged(strewn)[Side.LEFT].doubled / 2
