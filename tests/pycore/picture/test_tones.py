"""Tables between 8-bit values and linear light."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.colour.icc.tone_curves import decode_table
from pycore.picture.tones import encode, tones


def test_srgb_values_are_those_of_the_standard() -> None:
    """Published: IEC 61966-2-1: V / 12.92 up to V = 0.04045, else ((V + 0.055) / 1.055) ** 2.4.

    Derived: codes 0, 10, 128, 188 and 255: 0, 0.00303527, 0.21586050, 0.50288646 and 1.
    """
    light = tones(decode_table(None), channels=3).light
    assert light[1, [0, 10, 128, 188, 255]] == pytest.approx(
        [0, 0.00303527, 0.2158605, 0.50288646, 1], abs=6e-8
    )


@pytest.mark.parametrize("gamma", [1.0, 1.8, 2.2, 2.4])
def test_every_value_comes_back_as_itself(gamma: float) -> None:
    linear = np.tile((np.arange(256) / 255) ** gamma, (3, 1))
    tables = tones(linear, channels=3)
    every = np.arange(256, dtype=np.uint8).reshape(16, 16)
    for channel in range(3):
        back = encode(tables.light[channel][every], tables.from_bits[channel])
        assert (back == every).all()


def test_sixteen_bit_light_keeps_every_srgb_value() -> None:
    """Derived: sRGB's smallest step, 1 / 255 / 12.92, is 19.9 steps of 1 / 65535."""
    tables = tones(decode_table(None), channels=3)
    assert (tables.from_light16[0][tables.light16[0]] == np.arange(256)).all()


@pytest.mark.parametrize("code", [0, 1, 5, 10, 100, 254])
def test_the_nearest_value_is_taken(code: int) -> None:
    """Derived: the standard's own curve at code + 0.45 and code + 0.55 goes to code and to code + 1."""
    tables = tones(decode_table(None), channels=3)
    for past, nearest in ((0.45, code), (0.55, code + 1)):
        value = (code + past) / 255
        light = value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        assert encode(np.array([[light]], np.float32), tables.from_bits[0]) == nearest


def test_overshoot_is_cut() -> None:
    tables = tones(None, channels=1)
    light = np.array([[-0.2, 1.3]], np.float32)
    assert encode(light, tables.from_bits[0]).tolist() == [[0, 255]]
    # Derived: the last float32 values that a comparison with 0, with 1 and with 4 tells apart from them.
    below = np.array([[-0.0, -1e-45, -1e30, 0.0, 1e-45, 1e-20]], np.float32)
    assert encode(below, tables.from_bits[0]).max() == 0
    above = np.nextafter(np.array([[1, 1, 4]], np.float32), np.array([[0, 2, 0]], np.float32))
    assert encode(above, tables.from_bits[0]).min() == 255


@pytest.mark.parametrize(("gamma", "near"), [(1.0, 0.032), (2.2, 0.015)])
def test_only_what_lies_next_to_a_half_is_rounded_the_other_way(gamma: float, near: float) -> None:
    """Derived: light in steps of 2**-12 of itself or less is off by 2**-13 at most.

    A power of 1 / gamma makes 255 / gamma times as many steps of it, 0.031 and 0.014, at white; below white
    fewer.
    """
    table = tones((np.arange(256)[np.newaxis] / 255) ** gamma, channels=1).from_bits[0]
    light = np.linspace(0, 1, 1_000_001, dtype=np.float32)[np.newaxis]
    value = 255 * light.astype(np.float64) ** (1 / gamma)
    found = encode(light, table)
    is_clear = np.abs(value % 1 - 0.5) > near
    # Between the lowest two values the half lies on a curve of its own, a parabola's.
    is_clear &= value > 2
    assert is_clear.mean() > 0.9
    assert (found == np.floor(value + 0.5))[is_clear].all()


def test_without_curves_the_values_themselves_are_used() -> None:
    tables = tones(None, channels=4)
    assert not tables.is_linear
    assert tables.channels == 4
    assert tables.light16[3, 51] == 51 * 257


def test_a_last_bit_of_the_platform_does_not_matter() -> None:
    """Derived: 2 ** -53, as between two mathematical libraries, vanishes in steps of 2 ** -24."""
    linear = decode_table(None)
    assert linear is not None
    one, other = tones(linear, channels=3), tones(np.nextafter(linear, 0), channels=3)
    for name in ("light", "light16", "from_bits", "from_light16"):
        assert (getattr(one, name) == getattr(other, name)).all()
