"""A rectangle's corners within a fraction of a pixel, from the lines along which the light changes most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final, Self

import numpy as np
from numpy.typing import NDArray

from pycore.wall.least_squares import Floats

F32 = NDArray[np.float32]

#: Places along an edge where it is looked for, and how much of each end is left out: corners are rounded by
#: blur, and often taped.
_PLACES: Final = 160
_LEFT_OUT: Final = 0.07
#: Steps across an edge, pixels.
_STEP_PX: Final = 0.5
#: Standard deviation of the smoothing across an edge, pixels.
_SMOOTH_PX: Final = 1.2
#: A place that is further from its line counts as none of the edge.
_ON_LINE_PX: Final = 1.5
#: Lines through two of the places, of which the one with most places on it is taken.
_LINES_TRIED: Final = 120


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class EdgeLines:
    """Corners where four lines meet.

    Attributes
    ----------
    corners_px : (4, 2) float64
        In the order that was given.
    support : float
        Of the worst edge the share of places that lie on its line, 0 to 1.
    """

    corners_px: Floats
    support: float


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class EdgeFrame:
    """Along an edge, and across it into the rectangle.

    Attributes
    ----------
    start, along, inwards : (2,) float64
        The corner that it begins at, and two directions of length 1.
    length : float
        Pixels.
    """

    start: Floats
    along: Floats
    inwards: Floats
    length: float

    @classmethod
    def between(cls, one: Floats, other: Floats) -> Self:
        """The frame of an edge from one corner to the next, clockwise.

        Parameters
        ----------
        one, other : (2,) float64
            Two places apart.

        Returns
        -------
        EdgeFrame

        Examples
        --------
        >>> EdgeFrame.between(np.array([1.0, 2.0]), np.array([5.0, 2.0])).inwards.tolist()
        [-0.0, 1.0]
        """
        length = float(np.linalg.norm(other - one))
        along = (other - one) / length
        # Corners run clockwise, and y runs down: this points into the rectangle.
        return cls(start=one, along=along, inwards=np.array([-along[1], along[0]]), length=length)

    def spread(self, count: int) -> Floats:
        """Places along the edge, its ends left out.

        Parameters
        ----------
        count : int

        Returns
        -------
        (count,) float64
            Pixels from the start.
        """
        return np.linspace(_LEFT_OUT, 1 - _LEFT_OUT, count) * self.length

    def places(self, at: Floats, across: Floats) -> Floats:
        """Points along the edge and across it.

        Parameters
        ----------
        at : (n,) float64
            Pixels from the start.
        across : (m,) or (n, m) float64
            Pixels inwards, for all places or for each.

        Returns
        -------
        (n, m, 2) float64
        """
        return np.asarray(self.start + at[:, None, None] * self.along + across[..., None] * self.inwards)

    def light(self, light: F32, at: Floats, across: Floats) -> F32:
        """The light at points along the edge and across it.

        Parameters
        ----------
        light : (rows, columns) float32
        at, across : float64
            See `places`.

        Returns
        -------
        (n, m) float32
        """
        return sampled(light, self.places(at, across))

    def line(self, level: float, slope: float) -> Floats:
        """A line that lies so far inwards at the start, and moves on by the slope.

        Parameters
        ----------
        level : float
            Pixels.
        slope : float

        Returns
        -------
        (3,) float64
            See `line_through`.
        """
        end = self.start + self.length * self.along
        return line_through(
            self.start + level * self.inwards, end + (level + slope * self.length) * self.inwards
        )


def corner_pairs(corners_px: Floats) -> list[tuple[Floats, Floats]]:
    """The corners between which each edge runs.

    Parameters
    ----------
    corners_px : (4, 2) float64

    Returns
    -------
    list
        Four pairs, from each corner to the next.
    """
    return list(zip(corners_px, np.roll(corners_px, -1, axis=0), strict=True))


def corners_of(lines: Sequence[Floats]) -> Floats:
    """Where four lines meet.

    Parameters
    ----------
    lines : sequence of (3,) float64
        Of the edges of `corner_pairs`, in their order; see `line_through`.

    Returns
    -------
    (4, 2) float64
        Not numbers where two neighbours are parallel.
    """
    return np.array([meeting(lines[side - 1], lines[side]) for side in range(4)])


def refine_corners(light: F32, corners_px: Floats, *, reach_px: float) -> EdgeLines | None:
    """Move corners to where lines along the edges meet.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light. In linear light blur leaves an edge where it is.
    corners_px : (4, 2) float64
        Clockwise; pixels from the upper-left corner of `light`.
    reach_px : float
        How far from the given edges is looked.

    Returns
    -------
    EdgeLines or None
        None where an edge is not seen.

    Examples
    --------
    >>> light = np.zeros((60, 60), np.float32)
    >>> light[20:40, 10:50] = 1
    >>> near = np.array([[11.0, 19.0], [49.0, 21.0], [51.0, 41.0], [9.0, 39.0]])
    >>> refine_corners(light, near, reach_px=4).corners_px.round(1).tolist()
    [[10.0, 20.0], [50.0, 20.0], [50.0, 40.0], [10.0, 40.0]]
    """
    lines, support = [], 1.0
    for one, other in corner_pairs(corners_px):
        found = _line(light, one, other, reach_px)
        if found is None:
            return None
        lines.append(found[0])
        support = min(support, found[1])
    corners = corners_of(lines)
    return EdgeLines(corners_px=corners, support=support) if np.isfinite(corners).all() else None


def sampled(light: F32, places: Floats) -> F32:
    """Sample light between pixels, bilinearly.

    Parameters
    ----------
    light : (rows, columns) float32
    places : (..., 2) float64
        Points; pixel (row, column) has its middle at (column + 0.5, row + 0.5).

    Returns
    -------
    (...) float32
        Beyond the border its own light.

    Examples
    --------
    >>> sampled(np.array([[0.0, 1.0], [0.0, 1.0]], np.float32), np.array([[1.0, 1.0]])).tolist()
    [0.5]
    """
    rows, columns = light.shape
    x = np.clip(places[..., 0] - 0.5, 0, columns - 1.001)
    y = np.clip(places[..., 1] - 0.5, 0, rows - 1.001)
    left, top = x.astype(int), y.astype(int)
    right, low = x - left, y - top
    upper = light[top, left] * (1 - right) + light[top, left + 1] * right
    lower = light[top + 1, left] * (1 - right) + light[top + 1, left + 1] * right
    return np.asarray(upper * (1 - low) + lower * low, np.float32)


def _line(light: F32, one: Floats, other: Floats, reach_px: float) -> tuple[Floats, float] | None:
    """A line (a, b, c) with a x + b y = c along an edge, and the share of places that lie on it."""
    if np.linalg.norm(other - one) < 4:
        return None
    edge = EdgeFrame.between(one, other)
    count = int(np.clip(edge.length, 12, _PLACES))
    at = edge.spread(count)
    half = int(np.ceil(reach_px / _STEP_PX)) + 6
    across = np.arange(-half, half + 1) * _STEP_PX
    rise = _smoothed_rise(edge.light(light, at, across))
    # Paper is lighter than the wall on most edges, darker on some: the sign is that of most places.
    middle = rise[:, 6:-6]
    strongest = np.take_along_axis(middle, np.abs(middle).argmax(axis=1)[:, None], axis=1)[:, 0]
    rise = middle * (1.0 if np.sum(strongest) >= 0 else -1.0)
    best = np.clip(rise.argmax(axis=1), 1, rise.shape[1] - 2)
    rows = np.arange(count)
    before, peak, after = (rise[rows, best + step] for step in (-1, 0, 1))
    bend = before - 2 * peak + after
    # The top of the parabola through the three highest.
    shift = np.where(bend < 0, 0.5 * (before - after) / np.where(bend < 0, bend, 1), 0.0)
    offsets = (best + np.clip(shift, -1, 1)) * _STEP_PX + across[6]
    weights = np.maximum(peak, 0)
    if not (weights > 0).any():
        return None
    slope, level, support = _robust(at, offsets, weights)
    return edge.line(level, slope), support


def _robust(at: Floats, offsets: Floats, weights: Floats) -> tuple[float, float, float]:
    """Slope and level of the line that most places lie on, and how many do."""
    best, most = (0.0, float(np.median(offsets))), -1.0
    strong = np.minimum(weights, np.median(weights[weights > 0]))
    one, other = _pairs(len(at))
    apart = np.abs(at[one] - at[other]) >= 0.2 * (at[-1] - at[0])
    one, other = one[apart], other[apart]
    slopes = (offsets[one] - offsets[other]) / (at[one] - at[other])
    levels = offsets[one] - slopes * at[one]
    near = np.abs(offsets - levels[:, None] - slopes[:, None] * at) < _ON_LINE_PX
    for slope, level, is_near in zip(slopes, levels, near, strict=True):
        score = float(strong[is_near].sum())
        if score > most:
            best, most = (float(slope), float(level)), score
    slope, level = best
    scale = _ON_LINE_PX
    for _ in range(8):
        off = offsets - level - slope * at
        # Tukey's weights.
        near = strong * np.clip(1 - (off / (2 * scale)) ** 2, 0, None) ** 2
        design = np.stack([at, np.ones_like(at)], axis=1)
        normal = design.T @ (design * near[:, None])
        slope, level = np.linalg.lstsq(normal, design.T @ (near * offsets), rcond=None)[0]
        scale = max(0.25, min(scale, 2.0 * float(np.median(np.abs(off[near > 0])) if near.any() else scale)))
    off = offsets - level - slope * at
    return float(slope), float(level), float((np.abs(off) < _ON_LINE_PX).mean())


@cache
def _pairs(count: int) -> NDArray[np.int64]:
    """Pairs of places that lines are tried through, the same ones for each edge of so many: (2, tried)."""
    random = np.random.default_rng(0)
    drawn = [random.choice(count, 2, replace=False) for _ in range(_LINES_TRIED)]
    return np.array(drawn, np.int64).T


def line_through(start: Floats, end: Floats) -> Floats:
    """The line (a, b, c) with a x + b y = c through two points.

    Parameters
    ----------
    start, end : (2,) float64

    Returns
    -------
    (3,) float64
        a and b have length 1.

    Examples
    --------
    >>> line_through(np.array([0.0, 3.0]), np.array([5.0, 3.0])).tolist()
    [-0.0, 1.0, 3.0]
    """
    way = end - start
    normal = np.array([-way[1], way[0]]) / np.linalg.norm(way)
    return np.append(normal, normal @ start)


def meeting(one: Floats, other: Floats) -> Floats:
    """Where two lines meet.

    Parameters
    ----------
    one, other : (3,) float64
        See `line_through`.

    Returns
    -------
    (2,) float64
        Not numbers where they are parallel.

    Examples
    --------
    >>> meeting(np.array([0.0, 1.0, 3.0]), np.array([1.0, 0.0, 2.0])).tolist()
    [2.0, 3.0]
    """
    matrix = np.array([one[:2], other[:2]])
    if abs(np.linalg.det(matrix)) < 1e-6:
        return np.array([np.nan, np.nan])
    return np.asarray(np.linalg.solve(matrix, np.array([one[2], other[2]])))


def _smoothed_rise(profiles: F32) -> Floats:
    reach = int(np.ceil(3 * _SMOOTH_PX / _STEP_PX))
    steps = np.arange(-reach, reach + 1) * _STEP_PX
    kernel = -steps * np.exp(-0.5 * (steps / _SMOOTH_PX) ** 2)
    kernel /= np.abs(kernel).sum()
    padded = np.pad(profiles.astype(np.float64), ((0, 0), (reach, reach)), mode="edge")
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1, axis=1)
    return np.asarray(windows @ -kernel)
