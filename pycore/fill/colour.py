"""The one colour of a plain or fading side, in the picture's own values."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pycore.fill.facing import U8
from pycore.picture.tones import Tones

#: Turns '#rrggbb' (sRGB) into the picture's own 8-bit values, one per channel.
PlainColour = Callable[[str], tuple[int, ...]]

EDGE = "edge"


def srgb_values(colour: str) -> tuple[int, ...]:
    """The three values of '#rrggbb', for pictures that are sRGB themselves.

    Parameters
    ----------
    colour : str
        As '#rrggbb'.

    Returns
    -------
    tuple of int
        Red, green, blue, 0 to 255.

    Examples
    --------
    >>> srgb_values("#d8cbb4")
    (216, 203, 180)
    """
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def mean_light(area: U8, tones: Tones) -> list[np.uint16]:
    """The mean colour of an area in linear light.

    Parameters
    ----------
    area : (rows, columns, channels) uint8
        At least one pixel.
    tones : Tones
        The picture's tables.

    Returns
    -------
    list of uint16
        Linear light, one per channel.

    Examples
    --------
    >>> from pycore.picture.tones import tones
    >>> black_and_white = np.array([0, 255], np.uint8).reshape(1, 2, 1)
    >>> [int(value) for value in mean_light(black_and_white, tones(None, channels=1))]
    [32768]
    """
    means = []
    for channel in range(tones.channels):
        # Counting the 256 values first keeps the sum a sum of whole numbers, without a copy of the area.
        counts = np.bincount(area[..., channel].ravel(), minlength=256)
        total = sum(
            int(count) * int(light) for count, light in zip(counts, tones.light16[channel], strict=True)
        )
        pixels = area.shape[0] * area.shape[1]
        means.append(np.uint16((total + pixels // 2) // pixels))
    return means


def plain_light(colour: str, *, band: U8, tones: Tones, plain_colour: PlainColour) -> list[np.uint16]:
    """A side's colour as linear light.

    Parameters
    ----------
    colour : str
        'edge' for the mean of the band beside the edge, or '#rrggbb' (sRGB).
    band : (rows, columns, channels) uint8
        That band.
    tones : Tones
        The picture's tables.
    plain_colour : callable
        Turns '#rrggbb' into the picture's own values.

    Returns
    -------
    list of uint16
        Linear light, one per channel.
    """
    if colour == EDGE:
        return mean_light(band, tones)
    values = plain_colour(colour)
    return [tones.light16[channel][value] for channel, value in enumerate(values[: tones.channels])]
