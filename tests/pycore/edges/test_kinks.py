"""Kinks: of mirrored lines by their angle and width, of continued lines none."""

from __future__ import annotations

from typing import Final, TypedDict

import numpy as np
import pytest

from pycore.edges.gradients import F64
from pycore.edges.kinks import kinks


class _Options(TypedDict):
    depth_px: float
    band: float
    half_plain: float


OPTIONS: Final[_Options] = {"depth_px": 40, "band": 0.25, "half_plain": 0.02}


def line(slope: float, *, times: int = 1) -> F64:
    """Outlines with a slope, in columns per row away from the edge, side by side."""
    rows, columns = np.mgrid[0:40, 0:160]
    one = np.clip(columns - 80 - slope * rows + 0.5, 0, 1)[..., np.newaxis]
    return np.concatenate([one] * times, axis=1)


@pytest.mark.parametrize("slope", [-2.0, -1.0, -0.4, 0.0, 0.3, 1.0, 1.7])
def test_a_line_that_goes_straight_on_has_none(slope: float) -> None:
    # derived: inside it runs with the slope, past the edge with its opposite, both counted from the edge.
    assert kinks(line(-slope), line(slope), **OPTIONS) < 0.1


@pytest.mark.parametrize("slope", [0.3, 0.5, 1.0, 1.7])
def test_a_mirrored_line_is_bent(slope: float) -> None:
    # derived: a slope of 0.3 is 17 degrees, mirrored a bend of 33, which counts in full from 30. It is seen
    # in windows of 11 columns at least: 10 of these in full are 10 / (10 + 40 / 4) = 0.5.
    assert kinks(line(slope), line(slope), **OPTIONS) > 0.45


def test_two_lines_are_more_than_one() -> None:
    one, two = (kinks(line(1.0, times=times), line(1.0, times=times), **OPTIONS) for times in (1, 2))
    # derived: with k for one line of d, k / (k + d) becomes 2 k / (2 k + d); beside each other they blend a
    # little.
    assert two == pytest.approx(2 * one / (1 + one), abs=0.05)


def test_lines_across_the_edge_and_along_it_are_not_bent() -> None:
    planks = np.repeat((np.arange(40) // 5 % 2).astype(float), 160).reshape(40, 160, 1)
    assert kinks(line(0.0), line(0.0), **OPTIONS) == 0
    assert kinks(planks, planks, **OPTIONS) < 0.1


def test_faint_lines_count_less() -> None:
    faint = line(1.0) * 0.05
    assert kinks(faint, faint, **OPTIONS) < 0.6 * kinks(line(1.0), line(1.0), **OPTIONS)


def test_texture_has_little() -> None:
    noise = np.random.Generator(np.random.PCG64(6)).random((40, 200, 3))
    assert kinks(noise, noise, **OPTIONS) < 0.4
