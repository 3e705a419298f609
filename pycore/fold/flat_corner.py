"""One corner of the flat canvas for drawings: its facets as far as they are shown, and where it is cut."""

from __future__ import annotations

import numpy as np

from pycore.contract.job import Finish
from pycore.fold.facets import corners, flat_facets, local
from pycore.fold.kinds import Kind
from pycore.fold.polygons import beyond
from pycore.fold.scene import Floats
from pycore.fold.spec import FoldSpec


def corner_parts(spec: FoldSpec, shown_mm: float) -> list[tuple[Kind, Floats]]:
    """The facets of the upper right corner.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    shown_mm : float
        How far they are shown from the corner along the face.

    Returns
    -------
    list of (Kind, (n, 2) float64)
        Outlines in the corner's frame, mm: p past the under pair's edge, q past the other's.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> len(corner_parts(fold_spec(Job()), 48.0))
    10
    """
    corner = corners(spec)["top-right"]
    found = []
    for facet in flat_facets(spec):
        pieces = [facet.flat]
        for axis in (0, 1):
            normal = corner.axes[:, axis]
            through = corner.origin - normal * shown_mm
            pieces = beyond(pieces, through, normal)
        found += [(facet.kind, local(corner, one)) for one in pieces]
    return found


def cut_path(spec: FoldSpec) -> Floats:
    """Where a corner is cut that is not left whole.

    Parameters
    ----------
    spec : FoldSpec

    Returns
    -------
    (n, 2) float64
        From one free edge to the other, in the corner's frame, mm.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> cut_path(fold_spec(Job())).tolist()
    [[0.0, 45.0], [0.0, 20.0], [20.0, 20.0], [20.0, 0.0], [45.0, 0.0]]
    """
    d, s, t = spec.depth_mm, spec.reach_mm, spec.tab_mm
    if spec.finish is Finish.TRIMMED:
        return np.array([[0, s], [0, 0], [t, t], [d - t, t], [d, 0], [s, 0]], float)
    return np.array([[0, s], [0, d], [d, d], [d, 0], [s, 0]], float)
