"""Connected parts of a mask, and the quadrilateral that each one fills."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.wall.least_squares import Floats

#: Directions in which a part's outermost points are taken as its hull.
_DIRECTIONS: Final = 40


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
    # Every row begins and ends with a pixel outside, so that steps into and out of the mask alternate.
    padded = np.pad(mask, ((0, 0), (1, 1)))
    steps = np.flatnonzero(padded.reshape(-1)[1:] != padded.reshape(-1)[:-1])
    rows, starts = np.divmod(steps[::2], padded.shape[1])
    ends = steps[1::2] - rows * padded.shape[1]
    labels = _joined(rows, starts, ends)
    order = np.argsort(labels, kind="stable")
    if not len(order):
        return
    firsts = np.concatenate([[0], np.flatnonzero(np.diff(labels[order])) + 1])
    areas = np.add.reduceat((ends - starts)[order], firsts)
    lasts = [*firsts[1:].tolist(), len(order)]
    for area, first, last in zip(areas.tolist(), firsts.tolist(), lasts, strict=True):
        if least_px <= area <= most_px:
            runs = order[first:last]
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
    # away[i, j, k]: twice the area of the triangle of corners i, j and k, positive on the right of i to j.
    apart = hull[None, :] - hull[:, None]
    away = _cross(apart[:, :, None], apart[:, None, :])
    areas = (away.max(axis=2) - away.min(axis=2)) / 2
    one, other = np.unravel_index(int(areas.argmax()), areas.shape)
    far, near = int(away[one, other].argmax()), int(away[one, other].argmin())
    if not away[one, other, far] > 0 > away[one, other, near]:
        return None
    found = hull[sorted({int(one), int(other), far, near})]
    first = int(found.sum(axis=1).argmin())
    return np.roll(found, -first, axis=0), float(areas.max()), whole


def _joined(rows: NDArray[np.int64], starts: NDArray[np.int64], ends: NDArray[np.int64]) -> NDArray[np.int64]:
    """A label for each run, the first one's number: runs of neighbouring rows that overlap have the same."""
    width = int(ends.max(initial=0)) + 1
    # Of the row below, the first run that ends beyond this one's start, and the first that starts at its end.
    below = (rows + 1) * width
    first = np.searchsorted(rows * width + ends, below + starts, side="right")
    count = np.maximum(np.searchsorted(rows * width + starts, below + ends, side="left") - first, 0)
    one = np.repeat(np.arange(len(rows)), count)
    other = np.arange(len(one)) - np.repeat(np.cumsum(count) - count - first, count)
    labels = np.arange(len(rows))
    while True:
        low, high = np.sort(np.stack([labels[one], labels[other]]), axis=0)
        if np.array_equal(low, high):
            return labels
        np.minimum.at(labels, high, low)
        while not np.array_equal(labels, further := labels[labels]):
            labels = further


def _hull(points: Floats) -> Floats:
    """The outermost points in some directions, clockwise where y runs down: nearly the convex hull."""
    angles = np.arange(_DIRECTIONS) * (2 * np.pi / _DIRECTIONS) + 0.03
    farthest = (points @ np.stack([np.cos(angles), np.sin(angles)])).argmax(axis=0)
    corners = points[farthest]
    return np.asarray(corners[(corners != np.roll(corners, 1, axis=0)).any(axis=1)])


def _area(polygon: Floats) -> float:
    return abs(float(_cross(polygon, np.roll(polygon, -1, axis=0)).sum())) / 2


def _cross(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
