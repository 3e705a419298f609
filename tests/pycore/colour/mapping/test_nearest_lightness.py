"""The lightness at which a gamut comes nearest: a colour's own inside, nearer to the cusp outside."""

import numpy as np
import pytest

from pycore.colour.gamut.chroma_limit import ChromaLimits
from pycore.colour.mapping.nearest_lightness import nearest_lightness
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.ipt import lpt_to_lab

#: tests/parity finds what is made of these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

#: A gamut like a roof: 40 of chroma at L* 60, none at 20 and 100, the same for every hue.
LIGHTNESS = np.linspace(0.0, 100.0, 201)
ROOF = np.maximum(1.0 - np.abs(LIGHTNESS - 60.0) / 40.0, 0.0) * 40.0
LIMITS = ChromaLimits(chroma=np.repeat(ROOF[:, None], 121, axis=1))
NEAREST = nearest_lightness(LIMITS)


def test_what_lies_inside_stays_nearly() -> None:
    lightness = np.array([40.0, 60.0, 80.0])
    change = NEAREST(lightness, np.array([5.0, 30.0, 5.0]), np.array([0.0, 1.0, -2.0]))
    # derived: the mean over what is about as near differs by less than what is 1 CIEDE2000 away
    assert np.abs(change).max() < 1.0


def test_what_lies_outside_goes_towards_the_most_chroma() -> None:
    hue = np.linspace(-3.0, 3.0, 7, dtype=np.float64)
    light, dark = (NEAREST(np.full(7, one), np.full(7, 60.0), hue) for one in (90.0, 35.0))
    assert light.max() < -5.0
    assert dark.min() > 3.0
    # At the lightness that holds most there is nowhere to go.
    assert np.abs(NEAREST(np.full(7, 60.0), np.full(7, 60.0), hue)).max() < 1.0


def test_nearest_is_nearest() -> None:
    """Against the least CIEDE2000 of all colours of the same hue that the gamut holds."""
    chance = np.random.default_rng(17)
    lightness, chroma = chance.uniform(30.0, 95.0, 40), chance.uniform(30.0, 80.0, 40)
    hue = chance.uniform(-np.pi, np.pi, 40)

    def lab(at_lightness: FloatArray, at_chroma: FloatArray) -> FloatArray:
        lpt = [at_lightness, at_chroma * np.cos(hue), at_chroma * np.sin(hue)]
        return lpt_to_lab(np.stack(lpt, axis=1))

    def away(at_lightness: FloatArray) -> FloatArray:
        held = np.minimum(LIMITS(at_lightness, hue), chroma)
        return delta_e_2000(lab(lightness, chroma), lab(at_lightness, held))

    least = np.min([away(np.full(40, one)) for one in LIGHTNESS], axis=0)
    # The aim: 1; lightness counts a little less here, and what is about as near is averaged.
    assert (away(lightness + NEAREST(lightness, chroma, hue)) - least).max() < 1.0
    assert (away(lightness) - least).max() > 3.0


def test_nothing_jumps() -> None:
    """Two roofs: between them the nearest lightness alone would jump from the one to the other."""
    two = np.maximum(
        np.maximum(1.0 - np.abs(LIGHTNESS - 30.0) / 15.0, 1.0 - np.abs(LIGHTNESS - 80.0) / 15.0), 0.1
    )
    nearest = nearest_lightness(ChromaLimits(chroma=np.repeat(40.0 * two[:, None], 121, axis=1)))
    lightness = np.linspace(40.0, 70.0, 301, dtype=np.float64)
    ends = lightness + nearest(lightness, np.full(301, 40.0), np.full(301, 0.5))
    assert np.abs(np.diff(ends)).max() < 1.0
    # The first and the last hue are the same.
    around = nearest(np.full(2, 50.0), np.full(2, 40.0), np.array([-np.pi, np.pi - 1e-12]))
    assert abs(around[0] - around[1]) < 1e-6


def test_greys_alone() -> None:
    nearest = nearest_lightness(ChromaLimits(chroma=np.zeros((201, 121))))
    lightness = np.array([30.0, 50.0, 70.0])
    # derived: no lightness holds more than another, so each colour stays at its own, between the nodes, too
    assert np.abs(nearest(lightness, np.full(3, 40.0), np.zeros(3))).max() < 0.5
