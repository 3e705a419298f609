"""Facets cut into convex pieces whose corners meet along every crease, and their triangles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.fold.creases import Crease
from pycore.fold.facets import Facet
from pycore.fold.heights import SETTLE_MM, settling_of
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.polygons import NEAR_MM, along_line, split
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
            if facets[index].kind is Kind.FACE and not _is_slender(spec):
                triangles += _round_the_middle(piece, outline, index, known, vertices, owners)
            else:
                triangles += [(outline[a], outline[b], outline[c]) for a, b, c in _triangles(piece)]
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
    way, off = along_line(crease.start, crease.end, point)
    length = float(np.linalg.norm(crease.end - crease.start))
    return bool(off <= NEAR_MM and -NEAR_MM <= way <= length + NEAR_MM)


def _with_points(piece: Floats, points: list[Floats]) -> Floats:
    """Insert the points that lie inside an edge of the piece, in order along it."""
    outline: list[Floats] = []
    for start, end in zip(piece, np.roll(piece, -1, axis=0), strict=True):
        outline.append(start)
        length = float(np.linalg.norm(end - start))
        found: dict[float, Floats] = {}
        for point in points:
            way, off = along_line(start, end, point)
            if off <= NEAR_MM and NEAR_MM < way < length - NEAR_MM:
                found[round(float(way), 6)] = point
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


def _is_slender(spec: FoldSpec) -> bool:
    """Whether an edge of the face, pushed out at its corners, is steeper than it is seen from the middle.

    Half of the layers beneath a corner push it out within SETTLE_MM; twice that slope is kept free.
    """
    short, long = sorted((spec.width_mm, spec.height_mm))
    push_mm = (layer_ranks(spec)[Kind.OVER_SIDE] - 1) * spec.thickness_mm / 2
    return short / long < 2 * push_mm / SETTLE_MM


def _round_the_middle(
    piece: Floats,
    outline: list[int],
    facet: int,
    known: dict[tuple[float, float], int],
    vertices: list[Floats],
    owners: list[int],
) -> list[tuple[int, int, int]]:
    """Triangles of the face, which meet in its middle: so the picture stays even over all of it."""
    middle = _number(piece.mean(axis=0), facet, known, vertices, owners)
    count = len(outline)
    return [(middle, outline[at], outline[(at + 1) % count]) for at in range(count)]


def _triangles(piece: Floats) -> list[tuple[int, int, int]]:
    """Triangles of a convex piece, of which several points may lie in line, by the places of its points.

    Of all ways the one with the shortest diagonals (minimum weight, by Klincsek's table over the chains of
    the outline): each point of an edge is joined to what lies nearest across. So a point that the layers
    beneath push out of its edge bends the triangles beside it alone. Long triangles from one far point would
    be turned over by that, and lie on their neighbours.
    """
    count = len(piece)
    steps = piece[np.newaxis] - piece[:, np.newaxis]
    diagonal = np.hypot(steps[..., 0], steps[..., 1])
    for at in range(count):
        diagonal[at, (at + 1) % count] = diagonal[(at + 1) % count, at] = 0.0
    cost = np.zeros((count, count))
    apex = np.zeros((count, count), np.int64)
    for span in range(2, count):
        for first in range(count - span):
            last = first + span
            cost[first, last] = np.inf
            for middle in range(first + 1, last):
                one, other = steps[first, middle], steps[first, last]
                if one[0] * other[1] - one[1] * other[0] <= NEAR_MM:
                    continue
                length = cost[first, middle] + cost[middle, last]
                length += diagonal[first, middle] + diagonal[middle, last]
                if length < cost[first, last]:
                    cost[first, last], apex[first, last] = length, middle
    found: list[tuple[int, int, int]] = []
    chains = [(0, count - 1)]
    while chains:
        first, last = chains.pop()
        if last - first < 2:
            continue
        middle = int(apex[first, last])
        found.append((first, middle, last))
        chains += [(first, middle), (middle, last)]
    return found
