"""The creases between facets, and the sheet's cut edges."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.fold.facets import Facet

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


def _key(point: Floats) -> tuple[float, float]:
    """As fine as `EQUAL_MM`: far over rounding, and no facet has a shorter edge."""
    return round(float(point[0]), 9) + 0.0, round(float(point[1]), 9) + 0.0
