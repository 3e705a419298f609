"""The last fraction of a pixel of an edge: one line fitted to all light along it at once.

Where light changes little or is noisy, the steepest place of each row across an edge is mostly chance. The
line along which the light of all rows together changes most is not.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from pycore.wall.edge_beside import across_px, place_beside, single_step
from pycore.wall.edge_lines import F32, EdgeFrame, EdgeLines, corner_pairs, corners_of
from pycore.wall.least_squares import Floats

#: Places along an edge for each pixel, and steps across it, pixels.
_PER_PX: Final = 2.0
_STEP_PX: Final = 0.25
_MOST_PLACES: Final = 640
#: An edge's own blur: a standard deviation, pixels. It is read within so many pixels of the edge.
_LEAST_BLUR, _MOST_BLUR = 0.8, 2.5
_NEAR_PX: Final = 5.0
#: What rises less than this share of the most is no part of the edge.
_LEAST_RISE: Final = 0.15
#: Places where the light changes by less than the first share of the usual count for nothing, as under tape;
#: above the second one they count in full.
_ABSENT, _PRESENT = 0.2, 0.8
_MOST_STEPS: Final = 8
_STILL_PX: Final = 1e-3
#: What begins beside an edge may come nearer along it: it is looked at in so many parts.
_PARTS: Final = 3
#: A corner that would go further belongs to another edge.
_MOST_MOVED_PX: Final = 3.0


def settle_corners(light: F32, found: EdgeLines) -> EdgeLines:
    """Fit each edge to all the light along it, and let corners be where the edges meet.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light.
    found : EdgeLines
        Corners within about a pixel.

    Returns
    -------
    EdgeLines
        As they were where an edge is not seen so.

    Examples
    --------
    >>> light = np.zeros((60, 60), np.float32)
    >>> light[20:40, 10:50] = 1
    >>> near = EdgeLines(
    ...     corners_px=np.array([[10.3, 19.8], [49.8, 20.2], [50.2, 40.1], [9.9, 39.8]]), support=1.0
    ... )
    >>> settle_corners(light, near).corners_px.round(2).tolist()
    [[10.0, 20.0], [50.0, 20.0], [50.0, 40.0], [10.0, 40.0]]
    """
    corners = found.corners_px
    for _ in range(2):
        lines = []
        for one, other in corner_pairs(corners):
            line = _settled_line(light, EdgeFrame.between(one, other))
            if line is None:
                return found
            lines.append(line)
        moved = corners_of(lines)
        apart = np.linalg.norm(moved - found.corners_px, axis=1)
        if not (apart <= _MOST_MOVED_PX).all():
            return found
        corners = moved
    return EdgeLines(corners_px=_apart_from_others(light, corners), support=found.support)


def _apart_from_others(light: F32, corners: Floats) -> Floats:
    """Corners whose edges are told apart from what begins beside them."""
    edges = [EdgeFrame.between(one, other) for one, other in corner_pairs(corners)]
    places = [_spread(edge) for edge in edges]
    read = [
        edge.light(light, at, across_px()).astype(np.float64) for edge, at in zip(edges, places, strict=True)
    ]
    # Most edges have nothing beside them, and the blur is the photograph's.
    blur = float(np.median([single_step(profiles.mean(axis=0))[1] for profiles in read]))
    lines = []
    for edge, at, profiles in zip(edges, places, read, strict=True):
        level = slope = 0.0
        if place_beside(profiles.mean(axis=0), blur_px=blur) is not None:
            parts = np.array_split(np.arange(len(at)), _PARTS)
            found = [
                (at[part].mean(), place_beside(profiles[part].mean(axis=0), blur_px=blur)) for part in parts
            ]
            seen = np.array([(x, place) for x, place in found if place is not None])
            if len(seen) > 1:
                slope, level = np.polyfit(seen[:, 0], seen[:, 1], 1)
        lines.append(edge.line(level, slope))
    moved = corners_of(lines)
    return moved if np.isfinite(moved).all() else corners


def _spread(edge: EdgeFrame) -> Floats:
    """Places along an edge, pixels from its begin."""
    return edge.spread(int(np.clip(_PER_PX * edge.length, 24, _MOST_PLACES)))


def _settled_line(light: F32, edge: EdgeFrame) -> Floats | None:
    """A line (a, b, c) with a x + b y = c where the light along it changes most; None where it does not."""
    at = _spread(edge)

    def profiles(middles: Floats, across: Floats) -> Floats:
        return edge.light(light, at, middles[:, None] + across).astype(np.float64)

    blur = _blur_px(profiles, len(at))
    if blur is None:
        return None
    across = np.arange(-3 * blur, 3 * blur + _STEP_PX / 2, _STEP_PX)
    bell = np.exp(-0.5 * (across / blur) ** 2)
    # The light's rise smoothed by the bell, and its derivatives by the place of the edge.
    rise = across * bell
    first = (across**2 / blur**2 - 1) * bell
    first -= first.mean()
    second = (across**3 / blur**4 - 3 * across / blur**2) * bell
    design = np.stack([np.ones(len(at)), at], axis=1)
    fit = np.zeros(2)
    for _ in range(_MOST_STEPS):
        seen = profiles(design @ fit, across)
        response = seen @ rise
        usual = float(np.median(response))
        if usual == 0:
            return None
        weights = np.clip((response / usual - _ABSENT) / (_PRESENT - _ABSENT), 0, 1)
        slope = np.sign(usual) * (seen @ first) * weights
        bend = float((np.sign(usual) * (seen @ second) * weights).sum() / max(weights.sum(), 1e-12))
        normal = design.T @ (design * weights[:, None])
        if bend >= 0 or np.linalg.matrix_rank(normal) < 2:
            return None
        step = np.linalg.solve(-bend * normal, design.T @ slope)
        ends = np.abs(step[0] + step[1] * np.array([0, edge.length])).max()
        fit = fit + step / max(1.0, ends)
        if ends < _STILL_PX:
            break
    return edge.line(*fit)


def _blur_px(profiles: Callable[[Floats, Floats], Floats], count: int) -> float | None:
    """How wide the edge is, by the middle profile of all places; None where the light does not change."""
    across = np.arange(-2 * _NEAR_PX, 2 * _NEAR_PX + _STEP_PX / 2, _STEP_PX)
    rise = np.gradient(np.median(profiles(np.zeros(count), across), axis=0), _STEP_PX)
    rise *= np.sign(rise[np.abs(across) < 2].sum())
    near = np.abs(across) < _NEAR_PX
    rise = np.where(near & (rise > _LEAST_RISE * rise[near].max()), rise, 0.0)
    whole = float(rise.sum())
    if whole <= 0:
        return None
    middle = float((rise * across).sum()) / whole
    return float(np.clip(np.sqrt((rise * (across - middle) ** 2).sum() / whole), _LEAST_BLUR, _MOST_BLUR))
