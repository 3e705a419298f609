"""The one colour of a plain side."""

from __future__ import annotations

import numpy as np

from pycore.colour.icc.tone_curves import decode_table
from pycore.fill.colour import mean_light, plain_light, srgb_values
from pycore.picture.tones import tones


def test_hexadecimal_digits_are_red_green_blue() -> None:
    assert srgb_values("#d8cbb4") == (0xD8, 0xCB, 0xB4)
    assert srgb_values("#FF0001") == (255, 0, 1)


def test_the_mean_is_of_light_not_of_codes() -> None:
    """Derived: half black, half white is half the light, which sRGB encodes as 187.5, so 188."""
    tables = tones(decode_table(None), channels=3)
    area = np.zeros((10, 10, 3), np.uint8)
    area[:, ::2] = 255
    light = mean_light(area, tables)
    assert [int(tables.from_light16[0][value]) for value in light] == [188, 188, 188]


def test_the_mean_equals_numpys_mean_of_the_light() -> None:
    tables = tones(decode_table(None), channels=3)
    area = np.random.default_rng(2).integers(0, 256, (37, 41, 3), dtype=np.uint8)
    for channel, mean in enumerate(mean_light(area, tables)):
        exact = tables.light16[channel][area[..., channel]].astype(np.float64).mean()
        assert abs(int(mean) - exact) <= 0.5


def test_a_named_colour_comes_back_as_the_callers_values() -> None:
    tables = tones(decode_table(None), channels=3)
    band = np.zeros((1, 1, 3), np.uint8)
    light = plain_light("#123456", band=band, tones=tables, plain_colour=lambda _: (9, 99, 199))
    assert [int(tables.from_light16[c][v]) for c, v in enumerate(light)] == [9, 99, 199]


def test_arris_takes_the_band() -> None:
    tables = tones(None, channels=1)
    band = np.full((3, 5, 1), 77, np.uint8)
    light = plain_light("edge", band=band, tones=tables, plain_colour=srgb_values)
    assert int(tables.from_light16[0][light[0]]) == 77
