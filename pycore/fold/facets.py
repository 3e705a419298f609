"""The flat sheet cut by its creases into facets, with names, and the frame of each corner.

Corner frames: at every corner p runs out past the edge of the under pair and q past that of the over pair,
so that all four corners have the same facets and the same motion. The letters of the derivation stand for
F face, Us under side, Os over side, Ur under turn-over, Or over turn-over, U gusset under half, V gusset over
half, Ua, Ub, Vr back gusset under, middle and over part, T tab.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish, OverPair
from pycore.conventions import EQUAL_MM, Side
from pycore.fold.kinds import Kind
from pycore.fold.polygons import area
from pycore.fold.spec import FoldSpec, is_over

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Corner:
    """A corner of the face and its frame.

    Attributes
    ----------
    name : str
        For example top-right.
    origin : (2,) float64
        The face's corner on the flat sheet, mm.
    axes : (2, 2) float64
        Columns are the directions of p and q on the flat sheet.
    """

    name: str
    origin: Floats
    axes: Floats


@dataclass(frozen=True, kw_only=True)
class Facet:
    """A rigid part of the sheet.

    Attributes
    ----------
    name : str
        Unique on the sheet.
    kind : Kind
        What it is.
    corner : Corner
        The corner in whose frame its motion is given; for a strip one of its two.
    flat : (n, 2) float64
        Convex, counter-clockwise from the print side, on the flat sheet, mm.
    ends : tuple of Corner
        The corners that it reaches: a strip's two, a corner facet's one, none for the face.
    """

    name: str
    kind: Kind
    corner: Corner
    flat: Floats
    ends: tuple[Corner, ...] = ()


def corners(spec: FoldSpec) -> dict[str, Corner]:
    """The four corners and their frames.

    Parameters
    ----------
    spec : FoldSpec
        The canvas.

    Returns
    -------
    dict
        By name: top-right, top-left, bottom-right, bottom-left.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> corners(fold_spec(Job()))["top-left"].origin.tolist()
    [0.0, 200.0]
    """
    found = {}
    for name, right, up in (
        ("top-right", 1, 1),
        ("top-left", -1, 1),
        ("bottom-right", 1, -1),
        ("bottom-left", -1, -1),
    ):
        across, along = np.array([right, 0.0]), np.array([0.0, up])
        first, second = (across, along) if spec.over is OverPair.TOP_BOTTOM else (along, across)
        found[name] = Corner(
            name=name,
            origin=np.array([spec.width_mm if right > 0 else 0.0, spec.height_mm if up > 0 else 0.0]),
            axes=np.column_stack([first, second]),
        )
    return found


def on_sheet(corner: Corner, points: Floats) -> Floats:
    """Place points of a corner's frame on the flat sheet, in counter-clockwise order there.

    Parameters
    ----------
    corner : Corner
    points : (n, 2) float64
        A counter-clockwise outline in the corner's frame, mm.

    Returns
    -------
    (n, 2) float64
        mm from the face's lower-left corner, y up.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> corner = corners(fold_spec(Job()))["top-right"]
    >>> on_sheet(corner, np.array([[10.0, 20.0]])).tolist()
    [[310.0, 220.0]]
    """
    flat = corner.origin + points @ corner.axes.T
    return flat if np.linalg.det(corner.axes) > 0 else flat[::-1]


def local(corner: Corner, points: Floats) -> Floats:
    """Place points of the flat sheet in a corner's frame.

    Parameters
    ----------
    corner : Corner
    points : (n, 2) float64
        mm from the face's lower-left corner, y up.

    Returns
    -------
    (n, 2) float64
        mm, p and q.
    """
    found: Floats = (points - corner.origin) @ corner.axes
    return found


def flat_facets(spec: FoldSpec) -> list[Facet]:
    """Cut the sheet along its creases.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.

    Returns
    -------
    list of Facet
        29 for tucked and lapped corners left whole, 17 cut back, 13 trimmed; less where there is no
        turn-over.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> len(flat_facets(fold_spec(Job())))
    29
    """
    at = corners(spec)
    width, height = spec.width_mm, spec.height_mm
    face = np.array([[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]])
    facets = [Facet(name="face", kind=Kind.FACE, corner=at["top-right"], flat=face)]
    for side in Side:
        facets += _strips(spec, side, at)
    for corner in at.values():
        for kind, name, points in _corner_square(spec):
            flat = on_sheet(corner, points)
            facets.append(
                Facet(name=name.format(corner.name), kind=kind, corner=corner, flat=flat, ends=(corner,))
            )
    return facets


#: The two corners at the ends of each side; the first one lends its frame.
_ENDS = {
    Side.TOP: ("top-right", "top-left"),
    Side.RIGHT: ("top-right", "bottom-right"),
    Side.BOTTOM: ("bottom-right", "bottom-left"),
    Side.LEFT: ("top-left", "bottom-left"),
}


def _strips(spec: FoldSpec, side: Side, at: dict[str, Corner]) -> list[Facet]:
    """A side and its turn-over, from corner to corner; a set-back slants the ends of the over pair."""
    first, second = (at[name] for name in _ENDS[side])
    over = is_over(side, spec.over)
    slant = math.tan(spec.setback_rad) if over else 0.0
    depth, reach = spec.depth_mm, spec.reach_mm
    kinds = (Kind.OVER_SIDE, Kind.OVER_TURNOVER) if over else (Kind.UNDER_SIDE, Kind.UNDER_TURNOVER)
    facets = []
    for kind, name, near, far in (
        (kinds[0], f"{side.value} side", 0.0, depth),
        (kinds[1], f"{side.value} turn-over", depth, reach),
    ):
        if far - near <= EQUAL_MM:
            continue
        ends = []
        for corner in (first, second):
            along = [[-out * slant, out] if over else [out, 0.0] for out in (near, far)]
            ends.append(corner.origin + np.array(along) @ corner.axes.T)
        outline = np.array([ends[0][0], ends[0][1], ends[1][1], ends[1][0]])
        flat = _counter_clockwise(outline)
        facets.append(Facet(name=name, kind=kind, corner=first, flat=flat, ends=(first, second)))
    return facets


def _corner_square(spec: FoldSpec) -> list[tuple[Kind, str, Floats]]:
    """The facets of one corner square in its frame, counter-clockwise in (p, q)."""
    d, s, r, t = spec.depth_mm, spec.reach_mm, spec.turnover_mm, spec.tab_mm
    if spec.finish is Finish.TRIMMED:
        # At half the depth its two slanting cuts meet: a triangle.
        far = [[t, t]] if d - 2 * t <= EQUAL_MM else [[d - t, t], [t, t]]
        return [(Kind.TAB, "{} tab", np.array([[0, 0], [d, 0], *far], float))]
    angle = spec.setback_rad
    slope, slant = math.tan(math.pi / 4 + angle), math.tan(angle)
    if angle == 0:
        slope = 1.0  # tan(pi / 4) is not quite 1 in double precision.
    # A set-back lifts the ridge's end over q = d. Whole corners go on there; others are cut at q = d,
    # so that no set-back reaches past the sheet.
    ridge = [d, d * slope] if spec.whole else [d / slope, d]
    under = (
        [[0.0, 0.0], [d, 0.0], ridge] if spec.whole or angle == 0 else [[0.0, 0.0], [d, 0.0], [d, d], ridge]
    )
    parts: list[tuple[Kind, str, list[list[float]]]] = [
        (Kind.GUSSET_UNDER, "{} folded corner, under half", under),
        (Kind.GUSSET_OVER, "{} folded corner, over half", [[0, 0], ridge, [-d * slant, d]]),
    ]
    if spec.whole:
        free = [s / slope, s]
        middle = [[d, 0], [s, r], [s, s], free, ridge] if angle > 0 else [[d, 0], [s, r], [s, s], ridge]
        parts += [
            (Kind.BACK_UNDER, "{} back folded corner, under part", [[d, 0], [s, 0], [s, r]]),
            (Kind.BACK_MIDDLE, "{} back folded corner, middle part", middle),
            (
                Kind.BACK_OVER,
                "{} back folded corner, over part",
                [[-d * slant, d], ridge, free, [-s * slant, s]],
            ),
        ]
    return [(kind, name, np.array(points, float)) for kind, name, points in parts]


def _counter_clockwise(outline: Floats) -> Floats:
    return outline if area(outline) > 0 else outline[::-1]
