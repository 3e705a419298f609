"""Connected parts of a mask, and the quadrilateral that each one fills."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.wall.least_squares import Floats

#: Corners of a hull that quadrilaterals are tried between.
_MOST_CORNERS: Final = 36


def parts(mask: NDArray[np.bool_], *, least_px: int, most_px: int) -> Iterator[tuple[int, Floats]]:
    """The connected parts of a mask, joined along edges of pixels.

    Parameters
    ----------
    mask : (rows, columns) bool
    least_px, most_px : int
        Smaller and larger parts are left out.

    Yields
    ------
    int
        The part's pixels.
    (n, 2) float64
        Corners of its runs of pixels (x, y), among them all corners of its convex hull.

    Examples
    --------
    >>> mask = np.zeros((5, 8), bool)
    >>> mask[1:3, 1:4] = mask[4, 6:] = True
    >>> [area for area, _ in parts(mask, least_px=2, most_px=9)]
    [6, 2]
    """
    padded = np.pad(mask, ((0, 0), (1, 1))).astype(np.int8)
    steps = np.diff(padded, axis=1)
    rows, starts = np.nonzero(steps == 1)
    ends = np.nonzero(steps == -1)[1]
    labels = _joined(rows, starts, ends)
    order = np.argsort(labels, kind="stable")
    bounds = np.flatnonzero(np.diff(labels[order])) + 1
    for runs in np.split(order, bounds):
        if not runs.size:
            continue
        area = int((ends[runs] - starts[runs]).sum())
        if least_px <= area <= most_px:
            x = np.concatenate([starts[runs], ends[runs], starts[runs], ends[runs]])
            y = np.concatenate([rows[runs], rows[runs], rows[runs] + 1, rows[runs] + 1])
            yield area, np.stack([x, y], axis=1).astype(np.float64)


def largest_quadrilateral(points: Floats) -> tuple[Floats, float, float] | None:
    """The largest quadrilateral between corners of some points' convex hull.

    Parameters
    ----------
    points : (n, 2) float64

    Returns
    -------
    (4, 2) float64
        Clockwise where y runs down, from the corner nearest to the upper left.
    float
        Its area.
    float
        The hull's area.
    None
        Where the points lie in a line.

    Examples
    --------
    >>> largest_quadrilateral(np.array([[0.0, 0], [4, 0], [4, 3], [0, 3], [2, 1]]))[0].tolist()
    [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]
    """
    hull = _hull(points)
    if len(hull) < 4:
        return None
    whole = _area(hull)
    while len(hull) > _MOST_CORNERS:
        # The corner that least is lost with.
        lost = np.abs(_cross(hull - np.roll(hull, 1, axis=0), np.roll(hull, -1, axis=0) - hull))
        hull = np.delete(hull, int(lost.argmin()), axis=0)
    best, most = None, 0.0
    for one in range(len(hull)):
        for other in range(one + 2, len(hull) if one else len(hull) - 1):
            away = _cross(hull[other] - hull[one], hull - hull[one])
            near, far = int(away[one : other + 1].argmin()), int(away.argmax())
            area = (away[far] - away[one + near]) / 2
            if area > most and away[far] > 0 > away[one + near]:
                best, most = [one, one + near, other, far], float(area)
    if best is None:
        return None
    found = hull[sorted(best)]
    first = int(found.sum(axis=1).argmin())
    return np.roll(found, -first, axis=0), most, whole


def _joined(
    rows: NDArray[np.int64], starts: NDArray[np.int64], ends: NDArray[np.int64]
) -> NDArray[np.int64]:
    """A label for each run: runs of neighbouring rows that overlap have the same."""
    parent = list(range(len(rows)))

    def root(one: int) -> int:
        while parent[one] != one:
            parent[one] = parent[parent[one]]
            one = parent[one]
        return one

    first = np.searchsorted(rows, np.arange(int(rows[-1]) + 3 if len(rows) else 1))
    for row in range(len(first) - 2):
        one, other = int(first[row]), int(first[row + 1])
        end, last = other, int(first[row + 2])
        while one < end and other < last:
            if starts[one] < ends[other] and starts[other] < ends[one]:
                parent[root(other)] = root(one)
            if ends[one] < ends[other]:
                one += 1
            else:
                other += 1
    return np.array([root(one) for one in range(len(rows))], np.int64)


def _hull(points: Floats) -> Floats:
    """The convex hull, clockwise where y runs down (the monotone chain)."""
    ordered = np.unique(points, axis=0)
    chains = []
    for half in (ordered, ordered[::-1]):
        chain: list[Floats] = []
        for point in half:
            while len(chain) > 1 and _cross(chain[-1] - chain[-2], point - chain[-1]) <= 0:
                chain.pop()
            chain.append(point)
        chains += chain[:-1]
    return np.array(chains).reshape(-1, 2)


def _area(polygon: Floats) -> float:
    return abs(float(_cross(polygon, np.roll(polygon, -1, axis=0)).sum())) / 2


def _cross(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
