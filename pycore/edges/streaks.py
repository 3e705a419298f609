"""What the edge drawn straight out shows of the picture beside it: narrow bands, and many colours."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from pycore.edges.gradients import F64, saturated
from pycore.fill.continued_ground import STEPS, colour_steps
from pycore.fill.facing import U8

# Our own figures, set on 193 rated sides of photographs, some of which the tests name; on 148 others of
# photographs that nobody had seen, advice and eye agree on 137.

#: Half the stretch of the edge that a colour is compared with, as a share of the bar depth. A band that is
#: wider than this is a thing that runs on, and the step from one wide band to the next is an outline.
_HALF_STRETCH: Final = 1 / 6

#: The difference from the colour round about, in full scales, that is seen by half.
_HALF_DIFFERENCE: Final = 0.06

#: Bands that are together as wide as this share of the bar depth are seen by half.
_HALF_WIDTH: Final = 0.24

#: Colours along the edge that lie so far from their mean, in ΔE, are uneven by half.
_HALF_UNEVEN: Final = 12.0


def streaked(band: F64, *, depth_px: float) -> float:
    """How plainly a side shows streaks when its edge is drawn straight out.

    Each place of the drawn-out edge is compared with the median of the stretch round about it. What differs
    is a narrow band; the bands' widths, weighed with how well each is seen, are added up along the edge. A
    horizon is a step between wide bands and no streak. A star in a night sky is one.

    It does not see a few faint stars, nor a thing that is drawn out as one wide band (a lamp, half an apple).

    Parameters
    ----------
    band : (rows, columns, channels) float64
        The part of the face that is averaged, the edge its first row; encoded values, 0 to 1.
    depth_px : float
        The bar depth.

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> rows = np.zeros((3, 90, 1))
    >>> rows[:, 45:] = 0.6
    >>> streaked(rows, depth_px=36)
    0.0
    >>> rows[:, 20:24] = 0.6
    >>> streaked(rows, depth_px=36) > 0.3
    True
    """
    drawn = band.mean(axis=0)
    half = max(1, round(depth_px * _HALF_STRETCH))
    padded = np.pad(drawn, ((half, half), (0, 0)), mode="symmetric")
    middle = np.median(sliding_window_view(padded, 2 * half + 1, axis=0), axis=-1)
    difference: F64 = np.sqrt(((drawn - middle) ** 2).mean(axis=-1))
    width = float(saturated(difference, _HALF_DIFFERENCE).sum()) / depth_px
    return width / (width + _HALF_WIDTH)


def uneven(band: U8) -> float:
    """How far the colours along the edge lie from their mean, which the edge drawn out shows as wide bands.

    One band after the other is no streak, and yet only an edge of about one colour looks better drawn out
    than mirrored.

    Parameters
    ----------
    band : (rows, columns, 3) uint8
        The part of the face that is averaged, the edge its first row.

    Returns
    -------
    float
        0 to 1; one half from where the edge drawn out is not proposed.

    Examples
    --------
    >>> two = np.zeros((3, 90, 3), np.uint8)
    >>> uneven(two)
    0.0
    >>> two[:, 45:] = 200
    >>> uneven(two) > 0.7
    True
    """
    drawn = np.rint(band.mean(axis=0, keepdims=True)).astype(np.uint8)
    colours = colour_steps(drawn)[0].T / STEPS
    light, first, second = colours - colours.mean(axis=1, keepdims=True)
    away = float(np.sqrt(light * light + first * first + second * second).mean())
    return away / (away + _HALF_UNEVEN)
