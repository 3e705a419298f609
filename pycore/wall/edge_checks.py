"""Whether a rectangle's edges are a sheet's own.

Those of shadows and stripes run on over the wall. A line that follows the sheet's edge for a part of its
length, and joints or leaves on the wall for the rest, has wall on its inner side there.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.wall.edge_lines import F32, EdgeFrame, corner_pairs, sampled
from pycore.wall.least_squares import Floats

#: Where light is read on both sides of an edge: so far from it, pixels and as a share of its length.
_NEAR_PX, _NEAR_SHARE = 3.0, 0.02
#: From which to which share of its length beyond a corner an edge is looked for, and so many pixels at least.
_FROM, _TO, _LEAST_PX = 0.06, 0.30, 4.0
#: An edge that beyond a corner keeps so much of its step runs on there.
_KEPT: Final = 0.4
#: Black, in linear light: steps in the dark say little.
_FLOOR: Final = 0.004
_PLACES: Final = 24
#: Just inside an edge and a little further in, pixels, the light is the same but for a share of the edge's
#: step, at all but so many of its places.
_JUST_INSIDE_PX, _FURTHER_IN_PX = 3.0, 9.0
_CHANGED, _MOST_CHANGED = 0.4, 0.15
#: Of the places beyond a corner so many lie in the photograph, else nothing is known of them.
_LEAST_SEEN: Final = 0.5


def edges_run_on(light: F32, corners_px: Floats) -> bool:
    """Whether an edge runs on beyond both of its corners.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light.
    corners_px : (4, 2) float64
        Clockwise; pixels from the upper-left corner of `light`.

    Returns
    -------
    bool

    Examples
    --------
    >>> wall = np.full((120, 160), 0.3, np.float32)
    >>> wall[40:80, 50:110] = 0.8
    >>> sheet = np.array([[50.0, 40.0], [110.0, 40.0], [110.0, 80.0], [50.0, 80.0]])
    >>> edges_run_on(wall, sheet)
    False
    >>> wall[:, 80:] *= 0.5
    >>> sheet[1:3, 0] = 80
    >>> edges_run_on(wall, sheet)
    True
    """
    return any(_runs_on(light, EdgeFrame.between(one, other)) for one, other in corner_pairs(corners_px))


def _runs_on(light: F32, edge: EdgeFrame) -> bool:
    within = np.linspace(0.1, 0.9, _PLACES)
    first, last = max(_FROM, _LEAST_PX / edge.length), max(_TO, 4 * _LEAST_PX / edge.length)
    beyond = np.linspace(first, last, _PLACES)
    step = _step(light, edge, within)
    if not step:
        return True
    # Where the photograph ends before it is seen whether the edge does, it may run on.
    return all(_step(light, edge, at, unseen=np.inf * step) / step > _KEPT for at in (-beyond, 1 + beyond))


def edges_are_clean(light: F32, corners_px: Floats) -> bool:
    """Whether the light is even just inside all edges, as that of a sheet without print at its margin.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light.
    corners_px : (4, 2) float64
        Clockwise; pixels from the upper-left corner of `light`.

    Returns
    -------
    bool

    Examples
    --------
    >>> wall = np.full((120, 160), 0.3, np.float32)
    >>> wall[40:80, 50:110] = 0.8
    >>> sheet = np.array([[50.0, 40.0], [110.0, 40.0], [110.0, 80.0], [50.0, 80.0]])
    >>> edges_are_clean(wall, sheet)
    True
    >>> sheet[1, 0] = 122
    >>> edges_are_clean(wall, sheet)
    False
    """
    return all(_is_clean(light, EdgeFrame.between(one, other)) for one, other in corner_pairs(corners_px))


def _is_clean(light: F32, edge: EdgeFrame) -> bool:
    at = np.linspace(0.08, 0.92, 2 * _PLACES)
    across = np.array([_JUST_INSIDE_PX, _FURTHER_IN_PX])
    values = np.log(edge.light(light, at * edge.length, across).astype(np.float64) + _FLOOR)
    changed = np.abs(values[:, 1] - values[:, 0]) > _CHANGED * abs(_step(light, edge, at))
    return bool(changed.mean() <= _MOST_CHANGED)


def _step(light: F32, edge: EdgeFrame, at: Floats, *, unseen: float = 0.0) -> float:
    """The step of the logarithm of light across a line, at some shares of the way."""
    near = max(_NEAR_PX, _NEAR_SHARE * edge.length)
    places = edge.places(at * edge.length, np.array([-1.6, -1.3, -1.0, 1.0, 1.3, 1.6]) * near)
    rows, columns = light.shape
    is_seen = ((places >= 0) & (places <= [columns, rows])).all(axis=(1, 2))
    if is_seen.mean() < _LEAST_SEEN:
        return unseen
    values = np.log(sampled(light, places[is_seen]).astype(np.float64) + _FLOOR)
    return float(np.median(values[:, 3:].mean(axis=1) - values[:, :3].mean(axis=1)))
