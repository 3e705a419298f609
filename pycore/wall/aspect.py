"""The true shape of a rectangle that is seen at a slant, and the direction that a sheet hangs in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from pycore.contract.record import Pair
from pycore.wall.homography import homography
from pycore.wall.least_squares import Floats
from pycore.wall.pose import focal_from_plane, intrinsic

_UNIT: Final = np.array([[0.0, 1.0], [1.0, 1.0], [1.0, 0.0], [0.0, 0.0]])


def true_aspect(corners_px: Floats, *, focal_px: float | None, usual_px: float, centre_px: Floats) -> float:
    """The width of a rectangle by its height, from its corners in a photograph.

    Parameters
    ----------
    corners_px : (4, 2) float64
        Upper left, upper right, lower right, lower left.
    focal_px : float or None
        Where it is known; else the rectangle's own perspective tells it.
    usual_px : float
        What stands in where the view is too frontal for that; it then makes little difference.
    centre_px : (2,) float64
        The principal point.

    Returns
    -------
    float

    References
    ----------
    Hartley and Zisserman, chapter 8 (from memory): the images of both axes, seen by a calibrated camera, are
    as long as the axes are.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [200.0, 0.0], [200.0, 100.0], [0.0, 100.0]])
    >>> round(true_aspect(square, focal_px=None, usual_px=300.0, centre_px=np.array([100.0, 50.0])), 6)
    2.0
    """
    plane = homography(_UNIT, corners_px)
    focal = focal_from_plane(plane, centre_px) if focal_px is None else focal_px
    if not usual_px / 4 < focal < usual_px * 10:
        focal = usual_px
    own = np.linalg.solve(intrinsic(focal, centre_px), plane)
    return float(np.linalg.norm(own[:, 0]) / np.linalg.norm(own[:, 1]))


def nearest_size(sizes: Sequence[Pair], aspect: float) -> tuple[Pair, float]:
    """Of the sizes that a reference may have the one of the shape that is seen.

    Parameters
    ----------
    sizes : sequence of (float, float)
        Widths and heights, mm.
    aspect : float
        Width by height.

    Returns
    -------
    (float, float)
        The size.
    float
        By how much its shape differs: the logarithm of the ratio, at least 0.

    Examples
    --------
    >>> nearest_size([(210.0, 297.0), (297.0, 210.0)], 1.5)[0]
    (297.0, 210.0)
    """
    apart = [abs(float(np.log(width / height / aspect))) for width, height in sizes]
    best = int(np.argmin(apart))
    return sizes[best], apart[best]
