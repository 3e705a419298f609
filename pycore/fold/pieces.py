"""Facets cut into convex pieces whose corners meet along every crease, and their triangles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.fold.creases import Crease
from pycore.fold.facets import Facet
from pycore.fold.heights import SETTLE_MM, settling_of
from pycore.fold.polygons import NEAR_MM, split
from pycore.fold.spec import FoldSpec

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """The vertices and triangles of all facets, flat.

    Attributes
    ----------
    flat : (V, 2) float64
        mm; no vertex is shared between facets.
    facet : (V,) int64
        Which facet a vertex belongs to.
    triangles : (T, 3) uint32
        Counter-clockwise from the print side.
    """

    flat: Floats
    facet: npt.NDArray[np.int64]
    triangles: npt.NDArray[np.uint32]


def cut_up(spec: FoldSpec, facets: list[Facet], creases: list[Crease]) -> Pieces:
    """Cut every facet where its height changes, and make neighbours agree on the points of their crease.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    facets, creases
        From `flat_facets` and `find_creases`.

    Returns
    -------
    Pieces
    """
    pieces = [_split_where_it_settles(spec, facet) for facet in facets]
    for crease in creases:
        found = {
            side: {
                point_key(point): point for piece in pieces[side] for point in piece if _is_on(crease, point)
            }
            for side in (crease.left, crease.right)
        }
        for side, other in ((crease.left, crease.right), (crease.right, crease.left)):
            missing = [point for key, point in found[other].items() if key not in found[side]]
            if missing:
                pieces[side] = [_with_points(piece, missing) for piece in pieces[side]]
    vertices: list[Floats] = []
    owners: list[int] = []
    triangles: list[tuple[int, int, int]] = []
    for index, own in enumerate(pieces):
        known: dict[tuple[float, float], int] = {}
        for piece in own:
            outline = [_number(point, index, known, vertices, owners) for point in piece]
            triangles += _fan(piece, outline, index, known, vertices, owners)
    return Pieces(
        flat=np.array(vertices),
        facet=np.array(owners, np.int64),
        triangles=np.array(triangles, np.uint32),
    )


def _split_where_it_settles(spec: FoldSpec, facet: Facet) -> list[Floats]:
    pieces = [facet.flat]
    settling = settling_of(spec, facet.kind)
    if settling is None:
        return pieces
    normal = np.array(settling.normal)
    length = float(np.linalg.norm(normal))
    for corner in facet.ends:
        across = corner.axes @ normal / length
        for past in (settling.near, settling.near + SETTLE_MM):
            through = corner.origin + across * past / length
            pieces = [part for piece in pieces for part in split(piece, through, across)]
    return pieces


def _is_on(crease: Crease, point: Floats) -> bool:
    along = crease.end - crease.start
    length = float(np.linalg.norm(along))
    to_point = point - crease.start
    off = abs(along[0] * to_point[1] - along[1] * to_point[0]) / length
    return bool(off <= NEAR_MM and -NEAR_MM <= to_point @ along / length <= length + NEAR_MM)


def _with_points(piece: Floats, points: list[Floats]) -> Floats:
    """Insert the points that lie inside an edge of the piece, in order along it."""
    outline: list[Floats] = []
    for start, end in zip(piece, np.roll(piece, -1, axis=0), strict=True):
        outline.append(start)
        edge = end - start
        length = float(np.linalg.norm(edge))
        found: dict[float, Floats] = {}
        for point in points:
            to_point = point - start
            off = abs(edge[0] * to_point[1] - edge[1] * to_point[0]) / length
            way = float(to_point @ edge) / length
            if off <= NEAR_MM and NEAR_MM < way < length - NEAR_MM:
                found[round(way, 6)] = point
        outline += [found[way] for way in sorted(found)]
    return np.array(outline)


def _number(
    point: Floats,
    facet: int,
    known: dict[tuple[float, float], int],
    vertices: list[Floats],
    owners: list[int],
) -> int:
    key = point_key(point)
    if key not in known:
        known[key] = len(vertices)
        vertices.append(point)
        owners.append(facet)
    return known[key]


def point_key(point: Floats) -> tuple[float, float]:
    """Round a point to a millionth of a mm, so that one place has one key.

    Parameters
    ----------
    point : (2,) float64
        mm.

    Returns
    -------
    tuple of float
        x and y; never -0.0.
    """
    return round(float(point[0]), 6) + 0.0, round(float(point[1]), 6) + 0.0


def _fan(
    piece: Floats,
    outline: list[int],
    facet: int,
    known: dict[tuple[float, float], int],
    vertices: list[Floats],
    owners: list[int],
) -> list[tuple[int, int, int]]:
    """Triangles of a convex piece: round its middle where three of its points lie in line."""
    count = len(outline)
    if count == 3:
        return [(outline[0], outline[1], outline[2])]
    before, after = piece - np.roll(piece, 1, axis=0), np.roll(piece, -1, axis=0) - piece
    if np.all(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0] > NEAR_MM):
        return [(outline[0], outline[at], outline[at + 1]) for at in range(1, count - 1)]
    middle = _number(piece.mean(axis=0), facet, known, vertices, owners)
    return [(middle, outline[at], outline[(at + 1) % count]) for at in range(count)]
