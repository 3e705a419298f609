"""Kinks: of mirrored lines by their angle, of continued lines none."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.edges.gradients import F64
from pycore.edges.kinks import kinks


def line(slope: float) -> F64:
    """An outline with a slope, in columns per row away from the edge."""
    rows, columns = np.mgrid[0:40, 0:160]
    return np.clip(columns - 80 - slope * rows + 0.5, 0, 1)[..., np.newaxis]


@pytest.mark.parametrize("slope", [-2.0, -1.0, -0.4, 0.0, 0.3, 1.0, 1.7])
def test_a_line_that_goes_straight_on_has_none(slope: float) -> None:
    # derived: inside it runs with the slope, past the edge with its opposite, both counted from the edge.
    assert kinks(line(-slope), line(slope), depth_px=40) < 0.1


@pytest.mark.parametrize("slope", [0.3, 0.5, 1.0, 1.7])
def test_a_mirrored_line_is_bent(slope: float) -> None:
    # derived: a slope of 0.3 is 17 degrees, mirrored a bend of 33, which counts in full from 30.
    assert kinks(line(slope), line(slope), depth_px=40) > 0.7


def test_lines_across_the_edge_and_along_it_are_not_bent() -> None:
    planks = np.repeat((np.arange(40) // 5 % 2).astype(float), 160).reshape(40, 160, 1)
    assert kinks(line(0.0), line(0.0), depth_px=40) == 0
    assert kinks(planks, planks, depth_px=40) < 0.1


def test_texture_has_little() -> None:
    noise = np.random.Generator(np.random.PCG64(6)).random((40, 200, 3))
    assert kinks(noise, noise, depth_px=40) < 0.4
