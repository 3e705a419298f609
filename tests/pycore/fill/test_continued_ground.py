"""Whole-number means and readings along lines."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_ground import (
    STEPS,
    along_lines,
    colour_steps,
    mean_along,
    reflected,
    smooth,
)


def test_a_step_of_grey_is_about_its_lightness() -> None:
    grey = np.array([[[128] * 3, [138] * 3]], np.uint8)
    steps = colour_steps(grey)
    # published: L* of sRGB 128 is 53.6 and of 138 it is 57.4 (CIE 15, by way of IEC 61966-2-1); a stand-in
    # may differ by a tenth of a difference's size.
    assert abs((steps[0, 1, 0] - steps[0, 0, 0]) / STEPS - 3.8) < 0.4
    assert not steps[..., 1:].any()


def test_a_mean_keeps_what_does_not_vary_and_is_rounded() -> None:
    # derived: (0 + 0 + 1) / 3 rounds to 0, (0 + 1 + 2) / 3 = 1, (1 + 2 + 2) / 3 = 1.67 rounds to 2.
    assert mean_along(np.array([0, 1, 2], np.int32), 1, axis=0).tolist() == [0, 1, 2]
    flat = np.full((9, 9, 3), 77, np.int32)
    assert (smooth(flat, 2) == flat).all()


@pytest.mark.parametrize("most", [1700, 2**31 - 1])
@pytest.mark.parametrize("half", [1, 6, 7])
def test_a_mean_is_that_of_the_reflected_neighbours_however_it_is_summed(half: int, most: int) -> None:
    values = np.random.default_rng(half).integers(-most, most, (9, 11), dtype=np.int32, endpoint=True)
    padded = np.pad(values, ((0, 0), (half, half)), mode="symmetric").tolist()
    width = 2 * half + 1
    # Python's own numbers have no end.
    expected = [[(sum(row[k : k + width]) + half) // width for k in range(11)] for row in padded]
    assert mean_along(values, half, axis=1).tolist() == expected
    assert mean_along(values.T, half, axis=0).T.tolist() == expected


def test_a_short_axis_has_fewer_neighbours() -> None:
    # derived: reflected it reads 3 0 0 3 3 0, of which 9 / 5 rounds to 2 and 6 / 5 to 1.
    assert mean_along(np.array([0, 3], np.int32), 9, axis=0).tolist() == [2, 1]


def test_a_line_read_along_itself_is_one_column() -> None:
    rows, columns = np.mgrid[0:40, 0:100]
    # A line that runs half a column to the left with each row inwards: outwards half a column to the right.
    strip = (np.abs(columns - (60 - rows // 2)) < 2).astype(np.int32)
    read = along_lines(strip, np.full(100, 128, np.int32), 40)
    assert read[:, 60].all()


def test_past_the_ends_places_come_back() -> None:
    assert reflected(np.array([-1, -3, 5, 7, 99]), 5).tolist() == [0, 2, 4, 2, 0]
