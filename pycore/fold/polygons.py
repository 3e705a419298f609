"""Convex polygons on the flat sheet: area, point inside, splitting by a line."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

#: Distances under this, in mm, are none.
NEAR_MM = 1e-7


def area(outline: Floats) -> float:
    """Signed area of a polygon, positive counter-clockwise, mm2.

    Parameters
    ----------
    outline : (n, 2) float64
        Corners in order, mm.

    Returns
    -------
    float

    References
    ----------
    The shoelace formula.

    Examples
    --------
    >>> area(np.array([[0, 0], [4, 0], [4, 3], [0, 3]], float))
    12.0
    """
    x, y = outline.T
    return float(x @ _following(y) - y @ _following(x)) / 2


def inside(outline: Floats, point: Floats, *, margin_mm: float = NEAR_MM) -> bool:
    """Whether a point lies in a convex counter-clockwise polygon, its edge included.

    Parameters
    ----------
    outline : (n, 2) float64
        mm.
    point : (2,) float64
        mm.
    margin_mm : float
        How far outside an edge a point still counts.

    Returns
    -------
    bool

    Examples
    --------
    >>> inside(np.array([[0, 0], [4, 0], [4, 3], [0, 3]], float), np.array([4.0, 1.0]))
    True
    """
    edges = _following(outline) - outline
    to_point = point - outline
    left_of = edges[:, 0] * to_point[:, 1] - edges[:, 1] * to_point[:, 0]
    return bool(np.all(left_of >= -margin_mm * np.linalg.norm(edges, axis=1)))


def split(outline: Floats, through: Floats, normal: Floats) -> list[Floats]:
    """Split a convex polygon by a line.

    Parameters
    ----------
    outline : (n, 2) float64
        Convex, mm.
    through, normal : (2,) float64
        A point of the line and its unit normal.

    Returns
    -------
    list of (m, 2) float64
        Two parts in the outline's sense of turning, or the polygon itself where the line misses it.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> [len(part) for part in split(square, np.array([1.0, 1.0]), np.array([1.0, 0.0]))]
    [4, 4]
    """
    height = (outline - through) @ normal
    height[np.abs(height) < NEAR_MM] = 0.0
    if height.min() >= 0 or height.max() <= 0:
        return [outline]
    above: list[list[float]] = []
    below: list[list[float]] = []
    # Few numbers: as Python's own they are worked with several times as quickly as in arrays.
    points, heights = outline.tolist(), height.tolist()
    for point, following, here, there in zip(
        points, [*points[1:], points[0]], heights, [*heights[1:], heights[0]], strict=True
    ):
        if here >= 0:
            above.append(point)
        if here <= 0:
            below.append(point)
        if here * there < 0:
            share = here / (here - there)
            crossing = [one + (other - one) * share for one, other in zip(point, following, strict=True)]
            above.append(crossing)
            below.append(crossing)
    return [np.array(above), np.array(below)]


def _following(values: Floats) -> Floats:
    """For each the next, for the last the first: `np.roll` in a tenth of the time for a few."""
    return np.concatenate([values[1:], values[:1]])
