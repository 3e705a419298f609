"""The sRGB transfer function, its primaries and its white, IEC 61966-2-1."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.power_curve import PowerCurve

#: Published: IEC 61966-2-1, 5.2: ((x + 0.055) / 1.055)^2.4, and x / 12.92 below 0.04045.
SRGB_CURVE: Final = PowerCurve(g=2.4, a=1 / 1.055, b=0.055 / 1.055, c=1 / 12.92, d=0.04045)

#: Published: IEC 61966-2-1, table 1: x and y of red, green and blue.
SRGB_PRIMARIES: Final = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))

#: Published: IEC 61966-2-1, 5.3: Y of the three primaries, to four digits; Rec. ITU-R BT.709 has the same.
SRGB_LUMINANCE: Final = (0.2126, 0.7152, 0.0722)

#: CIE D65 as IEC 61966-2-1 and other standards round it.
D65_XY: Final = (0.3127, 0.3290)


def srgb_decode(srgb_encoded: FloatArray) -> FloatArray:
    """Linear light of encoded sRGB.

    Parameters
    ----------
    srgb_encoded : float64
        Any shape, 0 to 1.

    Returns
    -------
    float64
        The same shape, 0 to 1.

    References
    ----------
    IEC 61966-2-1:1999, 5.2.

    Examples
    --------
    >>> float(srgb_decode(np.array(0.5)).round(4))
    0.214
    """
    return SRGB_CURVE(srgb_encoded)


def srgb_encode(rgb_linear: FloatArray) -> FloatArray:
    """Encoded sRGB of linear light.

    Parameters
    ----------
    rgb_linear : float64
        Any shape; clipped to 0 to 1.

    Returns
    -------
    float64
        The same shape, 0 to 1.

    References
    ----------
    IEC 61966-2-1:1999, 5.2: the joint stands at 0.0031308.

    Examples
    --------
    >>> float(srgb_encode(np.array(0.214)).round(3))
    0.5
    """
    return srgb_encode_unbounded(np.clip(rgb_linear, 0.0, 1.0))


def srgb_encode_unbounded(rgb_linear: FloatArray) -> FloatArray:
    """Encoded sRGB without clipping: mirrored about 0, and going on past 1.

    What lies outside sRGB keeps its place on the way out of it, so that a table of such values, interpolated
    and then clipped to 0 to 1, has its edge where sRGB has its own.

    Parameters
    ----------
    rgb_linear : float64
        Any shape.

    Returns
    -------
    float64
        The same shape.

    References
    ----------
    The mirrored curve is common practice for extended ranges.

    Examples
    --------
    >>> srgb_encode_unbounded(np.array([-0.214, 0.0, 1.0])).round(3).tolist()
    [-0.5, 0.0, 1.0]
    """
    size = np.abs(rgb_linear)
    power = 1.055 * np.power(size, 1 / 2.4) - 0.055
    result: FloatArray = np.copysign(np.where(size <= 0.0031308, 12.92 * size, power), rgb_linear)
    return result
