"""Which size a rectangle has that is seen at a slant, by its true shape."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from pycore.contract.record import Pair
from pycore.wall.homography import homography
from pycore.wall.least_squares import Floats
from pycore.wall.pose import focal_from_plane, intrinsic

_UNIT: Final = np.array([[0.0, 1.0], [1.0, 1.0], [1.0, 0.0], [0.0, 0.0]])
#: Where the focal length is unknown, those from a wide lens to a long one are tried, in usual ones.
_LENSES: Final = (0.8, 1.0, 1.4, 2.0, 3.2)


def nearest_size(
    corners_px: Floats, sizes: Sequence[Pair], *, focal_px: float | None, usual_px: float, centre_px: Floats
) -> tuple[Pair, float]:
    """Of the sizes that a reference may have the one of the shape that is seen.

    Parameters
    ----------
    corners_px : (4, 2) float64
        Upper left, upper right, lower right, lower left.
    sizes : sequence of (float, float)
        Widths and heights, mm.
    focal_px : float or None
        Where it is known; else the one by which the corners are a rectangle is tried, and some others: from a
        small rectangle it is hardly known.
    usual_px : float
        Of a usual lens.
    centre_px : (2,) float64
        The principal point.

    Returns
    -------
    (float, float)
        The size.
    float
        By how much its shape differs: the logarithm of the ratio, at least 0.

    Examples
    --------
    >>> sheet = np.array([[0.0, 0.0], [300.0, 0.0], [300.0, 210.0], [0.0, 210.0]])
    >>> nearest_size(
    ...     sheet,
    ...     [(210.0, 297.0), (297.0, 210.0)],
    ...     focal_px=None,
    ...     usual_px=900.0,
    ...     centre_px=np.array([150.0, 105.0]),
    ... )[0]
    (297.0, 210.0)
    """
    plane = homography(_UNIT, corners_px)
    if focal_px is not None:
        tried = [focal_px]
    else:
        own = focal_from_plane(plane, centre_px)
        tried = [share * usual_px for share in _LENSES]
        tried += [own] if tried[0] < own < tried[-1] else []
    aspects = [_aspect(plane, one, centre_px) for one in tried]
    apart = [min(abs(float(np.log(wide / high / one))) for one in aspects) for wide, high in sizes]
    best = int(np.argmin(apart))
    return sizes[best], apart[best]


def _aspect(plane: Floats, focal_px: float, centre_px: Floats) -> float:
    """Width by height. From memory, Hartley and Zisserman, chapter 8.

    The images of both axes, seen by a calibrated camera, are as long as the axes are.
    """
    own = np.linalg.solve(intrinsic(focal_px, centre_px), plane)
    return float(np.linalg.norm(own[:, 0]) / np.linalg.norm(own[:, 1]))
