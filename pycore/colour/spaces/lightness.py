"""Light of one channel by even steps for the eye, and back; both go on in a straight line below nothing."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import JOINT

#: Published: CIE 15:2018, 8.2.1: the slope of the line below the cube root.
_SLOPE: Final = 24389.0 / 2700.0


def to_lightness(light: FloatArray) -> FloatArray:
    """L* of linear light, white 1 of both.

    Parameters
    ----------
    light : (...) float64
        Any number.

    Returns
    -------
    (...) float64
    """
    return np.where(light > JOINT, 1.16 * np.cbrt(light) - 0.16, light * _SLOPE)


def to_light(lightness: FloatArray) -> FloatArray:
    """Linear light of L*, white 1 of both.

    Parameters
    ----------
    lightness : (...) float64
        Any number.

    Returns
    -------
    (...) float64

    Examples
    --------
    >>> to_light(to_lightness(np.array([-0.1, 0.0, 0.001, 0.5, 2.0]))).round(12).tolist()
    [-0.1, 0.0, 0.001, 0.5, 2.0]
    """
    return np.where(lightness > JOINT * _SLOPE, ((lightness + 0.16) / 1.16) ** 3, lightness / _SLOPE)
