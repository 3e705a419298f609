"""What running on cuts: drawn things on the side, at its edge, further in; lines, horizons and texture."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.conventions import Side
from pycore.edges.gradients import F64
from pycore.edges.run_on import cut

from .drawn import HIGH, WIDE, disc, drawn, line, noise, run_on

#: 400 pixels with 38 mm of bars at a pixel a mm: this side alone takes 400 x 38 / 438 of them.
_DEPTH = 35


def at_left(values: F64) -> float:
    return cut(run_on(values, depth=38)[Side.LEFT])


@pytest.mark.parametrize("centre_x", [12, _DEPTH - 10, _DEPTH, _DEPTH + 6])
def test_a_disc_on_the_side_or_at_its_edge_is_cut(centre_x: float) -> None:
    assert at_left(disc(centre_x)) > 0.5


def test_a_disc_that_the_picture_s_own_end_cuts_stands_on_the_side() -> None:
    # Nothing leads to it from the front edge.
    assert at_left(disc(0, radius=25)) > 0.5


def test_a_disc_on_the_face_is_not_cut_and_touches_no_other_side() -> None:
    assert at_left(disc(_DEPTH + 30)) == 0
    found = run_on(disc(12), depth=38)
    assert [cut(found[side]) for side in (Side.TOP, Side.RIGHT, Side.BOTTOM)] == [0, 0, 0]


def test_a_disc_is_cut_more_the_plainer_it_is() -> None:
    found = [at_left(disc(_DEPTH, contrast=contrast)) for contrast in (0, 0.05, 0.1, 0.3, 0.6)]
    assert found[0] == 0
    assert np.all(np.diff(found) > 0)


def test_what_runs_through_goes_round_freely() -> None:
    # A trunk that lies across, a horizon along the edge, thin lines: straight, aslant, and one that ends.
    assert at_left(drawn(lambda _x, y: np.abs(y - 150) < 20)) == 0
    assert at_left(drawn(lambda x, _y: x < _DEPTH / 2)) == pytest.approx(0, abs=0.05)
    assert at_left(line(90)) < 0.05
    for degrees in (60, 40):
        assert at_left(line(degrees)) < 0.5
    assert at_left(drawn(lambda x, y: (np.abs(y - 150) < 1) & (x > _DEPTH / 2))) < 0.2


def test_texture_goes_round_freely() -> None:
    assert at_left(noise()) < 0.1
    pebbles = drawn(lambda x, y: (x % 12 - 6) ** 2 + (y % 12 - 6) ** 2 < 25)
    assert at_left(pebbles) < 0.5 < at_left(drawn(lambda x, y: (x - 35) ** 2 + (y - 150) ** 2 < 25**2))


def test_a_face_of_hardly_any_pixels_is_judged() -> None:
    for high, wide in ((1, 1), (2, 3), (9, 8)):
        for side in run_on(np.random.default_rng(3).random((high, wide, 3)), depth=38).values():
            assert 0 <= cut(side) <= 1


def test_corner_squares_are_left_out() -> None:
    values = np.full((HIGH, WIDE, 3), 0.4)
    values[:30, 8:30] = 0.9
    side = run_on(values, depth=38)[Side.TOP]
    assert cut(side) > 0.5
    # The same window, but the side itself begins past the square.
    assert cut(type(side)(**{**vars(side), "begin": 60})) == 0
