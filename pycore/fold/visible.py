"""Which printed parts show from outside when folded, and which printed point is seen where."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish
from pycore.errors import GeometryError
from pycore.fold.facets import Facet, corners, flat_facets, on_sheet
from pycore.fold.kinds import Kind
from pycore.fold.motion import facet_maps
from pycore.fold.polygons import NEAR_MM, inside
from pycore.fold.spec import FoldSpec
from pycore.speech import say

Floats = npt.NDArray[np.float64]


def visible_parts(spec: FoldSpec, facet: Facet) -> list[Floats]:
    """The parts of a facet that are seen on the face and the four sides of the folded piece.

    Whatever the finish, all visible parts together have the area W H + 2 d (W + H).

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    facet : Facet
        One of its facets.

    Returns
    -------
    list of (n, 2) float64
        Convex, counter-clockwise on the flat sheet, mm; empty where nothing is seen.

    Notes
    -----
    Derived. Tucked: face and sides; a set-back shows a sliver of the gusset's under half, (0, 0), (d, 0),
    (d, d tan e). Lapped: the gusset's under half is the flap that is seen, and hides a triangle at each end
    of the over side. Trimmed: face and sides.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> spec = fold_spec(Job())
    >>> top, gusset = flat_facets(spec)[1], flat_facets(spec)[9]
    >>> len(visible_parts(spec, top)), len(visible_parts(spec, gusset))
    (1, 0)
    """
    if facet.kind in (Kind.FACE, Kind.UNDER_SIDE):
        return [facet.flat]
    if facet.kind is Kind.OVER_SIDE:
        return [_between_flaps(spec, facet)] if spec.finish is Finish.LAPPED else [facet.flat]
    if facet.kind is Kind.GUSSET_UNDER:
        if spec.finish is Finish.LAPPED:
            return [facet.flat]
        if spec.setback_rad > 0:
            d = spec.depth_mm
            sliver = np.array([[0.0, 0.0], [d, 0.0], [d, d * math.tan(spec.setback_rad)]])
            return [on_sheet(facet.corner, sliver)]
    return []


def _between_flaps(spec: FoldSpec, facet: Facet) -> Floats:
    """The over side less the triangles (0, 0), (0, d), (-d, d) at its two ends, which the flaps cover."""
    d = spec.depth_mm
    points = []
    for corner in corners(spec).values():
        for local in ((0.0, 0.0), (-d, d)):
            point = corner.origin + corner.axes @ np.array(local)
            if inside(facet.flat, point):
                points.append(point)
    middle = np.mean(points, axis=0)
    # In order round their middle: a trapezoid, or a triangle where the flaps meet.
    ordered = sorted(points, key=lambda point: math.atan2(point[1] - middle[1], point[0] - middle[0]))
    return np.array(ordered)


def printed_point(spec: FoldSpec, seen: Floats) -> tuple[str, Floats]:
    """The printed point that is seen at a point of the folded piece's face or sides.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    seen : (3,) float64
        On the face (z = 0) or a side of the box, mm.

    Returns
    -------
    name : str
        The facet's.
    flat : (2,) float64
        On the flat sheet, mm.

    Raises
    ------
    GeometryError
        The point is not on the outside.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> name, flat = printed_point(fold_spec(Job()), np.array([290.0, 200.0, -15.0]))
    >>> name, flat.round(6).tolist()
    ('top side', [290.0, 215.0])
    """
    facets = flat_facets(spec)
    for facet, rigid in zip(facets, facet_maps(spec, facets, np.ones(1)), strict=True):
        parts = visible_parts(spec, facet)
        if not parts:
            continue
        flat = rigid.turn[0].T @ (seen - rigid.shift[0])
        if abs(flat[2]) <= NEAR_MM and any(inside(part, flat[:2]) for part in parts):
            return facet.name, flat[:2]
    raise GeometryError(
        field="seen",
        expected=say("a point on the face or a side"),
        got=np.array2string(seen, separator=", "),
        remedy=say("take a point on the outside of the folded piece"),
    )
