"""Tables of 16 bits."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.picture.deep_tones import deep_tones
from pycore.picture.tones import tones

_LEVELS = np.arange(65536) / 65535


def _srgb(levels: NDArray[np.float64]) -> NDArray[np.float64]:
    """Published: IEC 61966-2-1."""
    return np.where(levels <= 0.04045, levels / 12.92, ((levels + 0.055) / 1.055) ** 2.4)


@pytest.mark.parametrize("curve", [_srgb, lambda v: v, lambda v: v**1.8, lambda v: v**2.2, lambda v: v**2.6])
def test_every_value_comes_back(curve: Callable[[NDArray[np.float64]], NDArray[np.float64]]) -> None:
    """All 65536, but for those that a pure power leaves within one step of 2**-40."""
    light = curve(_LEVELS)
    table = deep_tones(light[np.newaxis], channels=1)
    values = np.arange(65536, dtype=np.uint16)[np.newaxis]
    back = table.from_light(table.to_light(values, 0), 0)
    apart = np.diff(light, prepend=-1) > 2.0**-39
    assert (back[0] == values[0])[apart].all()
    # derived: (v / 65535)**2.6 rises by 2**-39 a step from v = 79 on.
    assert apart[80:].all()


def test_light_is_that_of_the_8_bit_tables() -> None:
    levels = np.arange(256) / 255
    eight = tones(_srgb(levels)[np.newaxis], channels=1)
    sixteen = deep_tones(_srgb(_LEVELS)[np.newaxis], channels=1)
    assert np.abs(sixteen.light[0, ::257] - eight.light[0]).max() <= 2.0**-24


def test_means_are_those_of_light() -> None:
    table = deep_tones(_srgb(_LEVELS)[np.newaxis], channels=1)
    area = np.random.default_rng(1).integers(0, 65536, (40, 30), dtype=np.uint16)
    light = _srgb(area / 65535)
    assert float(table.mean_light(area, 0)) == pytest.approx(light.mean(), rel=1e-6)
    for count, mean in enumerate(table.running_means(area, 0), start=1):
        assert mean == pytest.approx(light[:count].mean(axis=0), rel=1e-6)
