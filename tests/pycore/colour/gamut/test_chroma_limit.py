"""The largest chroma at each lightness and hue, and how far lines reach."""

import numpy as np
import pytest

from pycore.colour.gamut.chroma_limit import ChromaLimits, chroma_limits
from pycore.colour.gamut.inside import InsideTest
from pycore.colour.gamut.mesh import GamutMesh, cube_surface


def ball() -> ChromaLimits:
    """A ball of radius 40 about mid grey."""
    points, triangles = cube_surface(41)
    away = points - 0.5
    sphere = away / np.linalg.norm(away, axis=1, keepdims=True) * 40.0 + np.array([50.0, 0.0, 0.0])
    return chroma_limits(InsideTest(GamutMesh(lab_d50=sphere, triangles=triangles, device=points)))


def test_a_ball() -> None:
    limits = ball()
    hue = np.linspace(-3.0, 3.0, 25, dtype=np.float64)
    for lightness in (20.0, 50.0, 74.0):
        # derived: sqrt(40^2 - (L - 50)^2); the mesh and the samples cut it by less than 0.3
        expected = np.sqrt(1600.0 - (lightness - 50.0) ** 2)
        found = limits(np.full(25, lightness), hue)
        assert np.abs(found - expected).max() < 0.3
    assert limits(np.array([5.0, 95.0]), np.zeros(2)).tolist() == [0.0, 0.0]
    assert np.abs(limits.cusp(hue) - 50.0).max() <= 2.0


def test_reach() -> None:
    limits = ball()
    reach = limits.reach(
        anchor=np.full(5, 50.0),
        anchor_chroma=np.array([0.0, 0.0, 0.0, 20.0, 20.0]),
        lightness=np.array([50.0, 50.0, 66.0, 50.0, 50.0]),
        chroma=np.array([20.0, 80.0, 12.0, 30.0, 60.0]),
        hue_rad=np.array([0.0, 1.0, 2.0, 3.0, 4.0]),
    )
    # derived: distances 20, 80 and 20 from the middle of a ball of 40, and 10 and 40 from a place that lies
    # 20 from its edge
    assert reach.tolist() == pytest.approx([2.0, 0.5, 2.0, 2.0, 0.5], abs=0.02)


def test_greys_have_no_end_but_their_own() -> None:
    reach = ball().reach(
        anchor=np.array([50.0]),
        lightness=np.array([50.0]),
        chroma=np.zeros(1),
        hue_rad=np.zeros(1),
    )
    assert reach[0] > 7.9
