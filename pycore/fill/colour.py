"""The one colour of a plain or fading side, in the picture's own values."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pycore.picture.tones import AnyTones, Values

#: Turns '#rrggbb' (sRGB) into the picture's own values of 8 bits, or of 16 where it was made so.
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


def mean_light(area: Values, tones: AnyTones) -> list[np.uint16 | np.float32]:
    """The mean colour of an area in linear light.

    Parameters
    ----------
    area : (rows, columns, channels) uint8 or uint16
        At least one pixel.
    tones : Tones or DeepTones
        The picture's tables.

    Returns
    -------
    list of uint16, or of float32 with values of 16 bits
        Linear light, one per channel.

    Examples
    --------
    >>> from pycore.picture.tones import tones
    >>> black_and_white = np.array([0, 255], np.uint8).reshape(1, 2, 1)
    >>> [int(value) for value in mean_light(black_and_white, tones(None, channels=1))]
    [32768]
    """
    return [tones.mean_light(area[..., channel], channel) for channel in range(tones.channels)]


def plain_light(
    colour: str, *, band: Values, tones: AnyTones, plain_colour: PlainColour
) -> list[np.uint16 | np.float32]:
    """A side's colour as linear light.

    Parameters
    ----------
    colour : str
        'edge' for the mean of the band beside the edge, or '#rrggbb' (sRGB).
    band : (rows, columns, channels) uint8 or uint16
        That band.
    tones : Tones or DeepTones
        The picture's tables.
    plain_colour : callable
        Turns '#rrggbb' into the picture's own values.

    Returns
    -------
    list of uint16, or of float32 with values of 16 bits
        Linear light, one per channel.
    """
    if colour == EDGE:
        return mean_light(band, tones)
    values = np.array(plain_colour(colour)[: tones.channels], np.uint16)
    return [tones.to_light(value[np.newaxis], channel)[0] for channel, value in enumerate(values)]
