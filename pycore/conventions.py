"""The conventions that every module keeps: units, axis order, sides.

Lengths are millimetres and angles radians. Arrays are (row, column, channel) with row 0 at the top; points
are (x, y) with y up on the flat sheet, whose origin is the face's lower-left corner seen from the front.
In 3D x runs right, y up and z towards the viewer; the face lies in the plane z = 0. Sides are always named
in the order top, right, bottom, left. Crops are fractions of the upright picture from its top-left corner.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import Final

#: One inch in millimetres, exactly. Published: international yard and pound agreement, 1959; ISO 31-1.
MM_PER_INCH: Final = 25.4

#: Sheets of paper: width and height upright, mm. Published: ISO 216; ANSI/ASME Y14.1 (8.5 x 11 inches).
PAPERS_MM: Final = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}

#: Lengths that differ by less are equal: far under any cut, far over rounding in double precision.
EQUAL_MM: Final = 1e-9


class Side(StrEnum):
    """A printed edge of the canvas; iterates in the order top, right, bottom, left."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"


def round_half_up(value: float) -> int:
    """Round to the nearest whole number, a half upwards (not to even, as `round` does).

    Parameters
    ----------
    value : float
        Any finite number.

    Returns
    -------
    int

    Examples
    --------
    >>> round_half_up(2.5), round_half_up(3.5), round_half_up(-0.5)
    (3, 4, 0)
    """
    return math.floor(value + 0.5)


def mm_to_px(length_mm: float, *, ppi: float) -> int:
    """Whole pixels of a length at a resolution: round half up of mm / 25.4 x ppi.

    Parameters
    ----------
    length_mm : float
        Length in mm.
    ppi : float
        Pixels per inch.

    Returns
    -------
    int
        Pixels.

    Examples
    --------
    >>> mm_to_px(210.0, ppi=300)
    2480
    """
    return round_half_up(length_mm / MM_PER_INCH * ppi)
