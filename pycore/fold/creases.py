"""The creases between facets, the sheet's cut edges, and fold angles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.fold.facets import Facet
from pycore.fold.rigid import Rigid

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Crease:
    """A line shared by two facets.

    Attributes
    ----------
    left, right : int
        Facets, by their place in the list, on the left and right of the line as it runs.
    start, end : (2,) float64
        On the flat sheet, mm.
    """

    left: int
    right: int
    start: Floats
    end: Floats


@dataclass(frozen=True, kw_only=True)
class Cut:
    """An edge of the sheet.

    Attributes
    ----------
    facet : int
        The facet that it bounds, by its place in the list.
    start, end : (2,) float64
        On the flat sheet, mm.
    """

    facet: int
    start: Floats
    end: Floats


def find_creases(facets: list[Facet]) -> tuple[list[Crease], list[Cut]]:
    """Pair up the facets' edges.

    Every facet runs counter-clockwise, so a shared edge is met once in each direction, and the facet that
    runs along it lies on its left. An edge that is met once is cut.

    Parameters
    ----------
    facets : list of Facet
        From `flat_facets`.

    Returns
    -------
    creases : list of Crease
    cuts : list of Cut
        The sheet's outline.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.facets import flat_facets
    >>> from pycore.fold.spec import fold_spec
    >>> len(find_creases(flat_facets(fold_spec(Job())))[0])
    44
    """
    edges: dict[tuple[tuple[float, float], tuple[float, float]], tuple[int, Floats, Floats]] = {}
    for index, facet in enumerate(facets):
        for start, end in zip(facet.flat, np.roll(facet.flat, -1, axis=0), strict=True):
            edges[(_key(start), _key(end))] = (index, start, end)
    creases: list[Crease] = []
    cuts: list[Cut] = []
    for (first, last), (index, start, end) in edges.items():
        other = edges.get((last, first))
        if other is None:
            cuts.append(Cut(facet=index, start=start, end=end))
        elif index < other[0]:
            creases.append(Crease(left=index, right=other[0], start=start, end=end))
    return creases, cuts


def fold_angle(crease: Crease, maps: list[Rigid]) -> Floats:
    """How far a crease is folded at every moment, (n,) radians.

    Positive is a mountain (the print side is convex), negative a valley. At exactly half a turn the sign has
    no meaning.

    Parameters
    ----------
    crease : Crease
        A crease.
    maps : list of Rigid
        Of all facets, from `facet_maps`.

    Returns
    -------
    (n,) float64
        atan2((n_left x n_right) . e, n_left . n_right), with the crease's direction e in space.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> spec = fold_spec(Job())
    >>> from pycore.fold.facets import flat_facets
    >>> from pycore.fold.motion import facet_maps
    >>> facets = flat_facets(spec)
    >>> face_edge = find_creases(facets)[0][0]
    >>> angle = fold_angle(face_edge, facet_maps(spec, facets, np.ones(1)))
    >>> float(np.degrees(angle[0]).round(9))
    90.0
    """
    left, right = maps[crease.left], maps[crease.right]
    along = left.direct(np.array([*(crease.end - crease.start), 0.0]))
    along = along / np.linalg.norm(along, axis=-1, keepdims=True)
    first, second = left.turn[:, :, 2], right.turn[:, :, 2]
    angle: Floats = np.arctan2(
        np.sum(np.cross(first, second) * along, axis=-1), np.sum(first * second, axis=-1)
    )
    return angle


def _key(point: Floats) -> tuple[float, float]:
    """As fine as `EQUAL_MM`: far over rounding, and no facet has a shorter edge."""
    return round(float(point[0]), 9) + 0.0, round(float(point[1]), 9) + 0.0
