"""What a mirror doubles: drawn shapes near the edge, elsewhere, and in texture."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.conventions import Side

from .drawn import HIGH, disc, drawn, judged, line, noise


@pytest.mark.parametrize("distance", [0, 8, 14, 20])
def test_a_disc_at_the_edge_is_doubled(distance: float) -> None:
    assert judged(disc(distance))[Side.LEFT].doubled > 0.6


def test_a_disc_is_doubled_less_the_further_it_is() -> None:
    found = [judged(disc(distance))[Side.LEFT].doubled for distance in (0, 16, 30, 45, 60, 90)]
    assert found == sorted(found, reverse=True)
    assert found[-1] == 0


def test_a_disc_is_doubled_more_the_plainer_it_is() -> None:
    found = [judged(disc(14, contrast=contrast))[Side.LEFT].doubled for contrast in (0, 0.05, 0.1, 0.3, 0.6)]
    assert found[0] == 0
    assert np.all(np.diff(found) > 0)


def test_a_disc_touches_its_own_side_alone() -> None:
    found = judged(disc(14))
    for side in (Side.TOP, Side.RIGHT, Side.BOTTOM):
        assert found[side].doubled == 0


def test_a_line_is_no_shape() -> None:
    assert judged(line(90))[Side.LEFT].doubled < 0.05
    assert judged(drawn(lambda x, _y: np.abs(x - 10) < 3))[Side.LEFT].doubled < 0.05
    assert judged(drawn(lambda _x, y: y < HIGH / 2))[Side.LEFT].doubled < 0.05


def test_where_everything_stands_out_nothing_does() -> None:
    pebbles = drawn(lambda x, y: (x % 24 - 12) ** 2 + (y % 24 - 12) ** 2 < 64)
    assert all(one.doubled < 0.1 for one in judged(pebbles).values())
    assert all(one.doubled < 0.1 for one in judged(noise()).values())
