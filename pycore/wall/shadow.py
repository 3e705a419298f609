"""The shadow that a hanging box throws on its wall."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.wall.least_squares import Floats
from pycore.wall.piece import Box

#: A room's light comes from a wide patch of windows and walls: its middle stands so far to one side for each
#: mm in front of the wall, and it is so wide. By eye.
_SLANT: Final = 0.55
_SPREAD: Final = 0.8
#: Directions of the light.
_RAYS: Final = 24


def shaded_share(x_mm: Floats, y_mm: Floats, box: Box, *, from_deg: float) -> Floats:
    """The share of the light that a box keeps from places on the wall.

    Parameters
    ----------
    x_mm, y_mm : (...) float64
        On the wall.
    box : Box
    from_deg : float
        Where the light comes from: degrees clockwise from above.

    Returns
    -------
    (...) float64
        0 to 1; 1 under the box.

    Examples
    --------
    >>> box = Box(centre_mm=(0.0, 0.0), size_mm=(200.0, 100.0), depth_mm=20.0)
    >>> below, above, far = shaded_share(np.zeros(3), np.array([-52.0, 58.0, -200.0]), box, from_deg=0.0)
    >>> bool(below > 0.4), bool(above < below), float(far)
    (True, True, 0.0)
    """
    angle = np.radians(from_deg)
    middle = _SLANT * np.array([np.sin(angle), np.cos(angle)])
    # A sunflower's seeds: evenly spread over a disc.
    number = np.arange(_RAYS) + 0.5
    out, turn = np.sqrt(number / _RAYS) * _SPREAD, number * np.pi * (3 - np.sqrt(5))
    total = np.zeros(x_mm.shape)
    for slope_x, slope_y in middle + np.stack([out * np.cos(turn), out * np.sin(turn)], axis=1):
        first_x, last_x = _inside(x_mm - box.centre_mm[0], slope_x, box.size_mm[0] / 2)
        first_y, last_y = _inside(y_mm - box.centre_mm[1], slope_y, box.size_mm[1] / 2)
        begin = np.maximum(np.maximum(first_x, first_y), 0)
        total += begin <= np.minimum(np.minimum(last_x, last_y), box.depth_mm)
    return total / _RAYS


def shadow_reach_mm(box: Box) -> float:
    """How far beyond a box its shadow reaches.

    Parameters
    ----------
    box : Box

    Returns
    -------
    float

    Examples
    --------
    >>> shadow_reach_mm(Box(centre_mm=(0.0, 0.0), size_mm=(200.0, 100.0), depth_mm=20.0))
    27.0
    """
    return (_SLANT + _SPREAD) * box.depth_mm


def _inside(at: Floats, slope: float, half: float) -> tuple[Floats, Floats]:
    """From which to which height a ray towards the light is inside a slab."""
    if abs(slope) < 1e-9:
        slope = 1e-9
    one, other = (-half - at) / slope, (half - at) / slope
    return np.minimum(one, other), np.maximum(one, other)
