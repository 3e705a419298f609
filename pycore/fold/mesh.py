"""The canvas as one triangle mesh with texture coordinates, at sampled positions from flat to folded."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish
from pycore.fold.creases import find_creases
from pycore.fold.facets import Facet, flat_facets
from pycore.fold.heights import FACING_IN, offsets
from pycore.fold.kinds import Kind
from pycore.fold.motion import facet_maps
from pycore.fold.pieces import Pieces, cut_up, point_key
from pycore.fold.polygons import NEAR_MM, along_line
from pycore.fold.rigid import Rigid
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import stages_of

Floats = npt.NDArray[np.float64]

#: Half the gap between the two frames at which a hidden stage is cut from its start to its end.
_CUT = 1e-4

#: How strongly two planes that nearly coincide are kept from throwing their common edge far aside.
_HOLD = 0.1


class Surface(StrEnum):
    """Which surface of the canvas's thickness a mesh is."""

    MIDDLE = "middle"
    OUTER = "outer"
    """Of each layer the surface away from the bar: the outside of the piece, as a calliper finds it."""


@dataclass(frozen=True, kw_only=True)
class FoldMesh:
    """A mesh at n sampled positions.

    Attributes
    ----------
    at : (n,) float64
        Rising from 0 to 1; stage boundaries are among them.
    positions : (n, V, 3) float32
        mm; at 0 exactly the flat sheet in the plane z = 0.
    uv : (V, 2) float32
        Fractions of the texture from its top-left corner.
    flat_mm : (V, 2) float64
        On the flat sheet.
    triangles : (T, 3) uint32
        Counter-clockwise from the print side.
    facet : (V,) int64
        Which facet, by its place in `names`.
    outlines : (S, 2) uint32
        Vertices at the ends of line pieces: creases first, then cut edges.
    crease_count : int
        How many of them are creases.
    names : list of str
        Of the facets.
    """

    at: Floats
    positions: npt.NDArray[np.float32]
    uv: npt.NDArray[np.float32]
    flat_mm: Floats
    triangles: npt.NDArray[np.uint32]
    facet: npt.NDArray[np.int64]
    outlines: npt.NDArray[np.uint32]
    crease_count: int
    names: list[str]


def fold_mesh(
    spec: FoldSpec,
    *,
    columns: Sequence[float],
    rows: Sequence[float],
    frames_per_stage: int,
    surface: Surface = Surface.MIDDLE,
) -> FoldMesh:
    """Build the mesh.

    Vertices of two facets at one place of the sheet have equal positions in every frame, so no crack opens.
    In the folded state the canvas's middle lies (layer - 1/2) x thickness off its plane; on a crease it is
    the mitre of two planes, or the mean of two layers folded on one another.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    columns, rows : 4 rising floats
        Texture fractions at the sheet's left edge, left edge, right front edge and right edge; from the top:
        top edge, top edge, bottom front edge, bottom edge. The printed face is a little larger than the wood.
    frames_per_stage : int
        Sampled positions a stage; at least 1.
    surface : Surface
        Outer: layer x thickness off the plane, half a thickness further out than the middle.

    Returns
    -------
    FoldMesh

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> lines = (0.0, 0.2, 0.8, 1.0)
    >>> mesh = fold_mesh(fold_spec(Job()), columns=lines, rows=lines, frames_per_stage=2)
    >>> mesh.at.round(3).tolist()
    [0.0, 0.167, 0.333, 0.5, 0.667, 0.833, 1.0]
    """
    facets = flat_facets(spec)
    creases, cuts = find_creases(facets)
    pieces = cut_up(spec, facets, creases)
    shown, moved = _moments(spec, frames_per_stage)
    maps = facet_maps(spec, facets, moved)
    positions = _rigid_positions(pieces, maps)
    positions += _displacements(spec, facets, pieces, maps, moved, surface)
    crease_lines = [
        line for crease in creases for line in _lines(pieces, crease.left, crease.start, crease.end)
    ]
    cut_lines = [line for cut in cuts for line in _lines(pieces, cut.facet, cut.start, cut.end)]
    return FoldMesh(
        at=shown,
        positions=positions.astype(np.float32),
        uv=_texture_coordinates(spec, pieces.flat, columns, rows),
        flat_mm=pieces.flat,
        triangles=pieces.triangles,
        facet=pieces.facet,
        outlines=np.array(crease_lines + cut_lines, np.uint32),
        crease_count=len(crease_lines),
        names=[facet.name for facet in facets],
    )


def _moments(spec: FoldSpec, per_stage: int) -> tuple[Floats, Floats]:
    """The sampled moments as shown, and the moments of the motion that they show."""
    shown: list[float] = [0.0]
    moved: list[float] = [0.0]
    for stage in stages_of(spec):
        if stage.hidden:
            middle = (stage.start + stage.end) / 2
            shown += [middle - _CUT, middle + _CUT, stage.end]
            moved += [stage.start, stage.end, stage.end]
            continue
        steps = [
            stage.start + (stage.end - stage.start) * step / per_stage for step in range(1, per_stage + 1)
        ]
        shown += steps
        moved += steps
    shown[-1] = moved[-1] = 1.0
    return np.array(shown), np.array(moved)


def _rigid_positions(pieces: Pieces, maps: list[Rigid]) -> Floats:
    turns = np.stack([one.turn for one in maps], axis=1)[:, pieces.facet]
    shifts = np.stack([one.shift for one in maps], axis=1)[:, pieces.facet]
    flat = pieces.flat
    positions: Floats = turns[..., 0] * flat[:, :1] + turns[..., 1] * flat[:, 1:] + shifts
    return positions


def _displacements(
    spec: FoldSpec,
    facets: list[Facet],
    pieces: Pieces,
    maps: list[Rigid],
    moved: Floats,
    surface: Surface,
) -> Floats:
    """How far each vertex stands off the sheet without thickness, (n, V, 3).

    At a place that several facets share, the displacement D is the least-squares solution of
    D . n_i = h_i over their outward normals n_i and heights h_i, so all of them agree on it.
    """
    half = spec.thickness_mm / 2
    height, facing = _lying(spec, facets, pieces, moved)
    first = half  # The height of the layer on the bar.
    if surface is Surface.OUTER:
        height, first = height + half, 2 * half
    normals = np.stack([one.turn[:, :, 2] for one in maps], axis=1)
    normal = normals[:, pieces.facet] * facing[..., np.newaxis]
    own, piled = _parting(spec, moved)
    standing = own[:, np.newaxis] * first + piled[:, np.newaxis] * (height - first)
    moves: Floats = normal * standing[..., np.newaxis]
    groups: dict[tuple[float, float], list[int]] = {}
    for vertex, point in enumerate(pieces.flat):
        groups.setdefault(point_key(point), []).append(vertex)
    shared = [group for group in groups.values() if len(group) > 1]
    order = np.concatenate([np.array(group) for group in shared])
    sizes = np.array([len(group) for group in shared])
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    ordered = normal[:, order]
    left = np.add.reduceat(ordered[..., :, np.newaxis] * ordered[..., np.newaxis, :], starts, axis=1)
    right = np.add.reduceat(moves[:, order], starts, axis=1)
    # Held back while planes nearly coincide; free when folded, where they are parallel or upright.
    hold = _HOLD * (1 - moved**16) + 1e-9
    left = left + hold[:, np.newaxis, np.newaxis, np.newaxis] * np.eye(3)
    solved = np.linalg.solve(left, right[..., np.newaxis])[..., 0]
    moves[:, order] = np.repeat(solved, sizes, axis=1)
    return moves


#: Facets of a corner left whole that only the last stage lays on the back, and those beside which they lie
#: until then, in one plane and in the same layers.
_STILL_BESIDE = {
    Finish.TUCKED: {
        Kind.OVER_TURNOVER: Kind.OVER_SIDE,
        Kind.BACK_OVER: Kind.GUSSET_OVER,
        Kind.BACK_MIDDLE: Kind.GUSSET_UNDER,
    },
    Finish.LAPPED: {Kind.UNDER_TURNOVER: Kind.UNDER_SIDE, Kind.BACK_UNDER: Kind.BACK_MIDDLE},
}


def _lying(spec: FoldSpec, facets: list[Facet], pieces: Pieces, moved: Floats) -> tuple[Floats, Floats]:
    """Each vertex's height over its plane when piled up, mm, and 1 or -1 as its print faces out or in.

    Both (n, V). A height changes with the last stage; a print that turns over does so in a hidden one.
    """
    beside = _STILL_BESIDE[spec.finish] if spec.whole else {}
    last = stages_of(spec)[-1]
    laid = _smooth(np.clip((moved - last.start) / (last.end - last.start), 0, 1))[:, np.newaxis]
    until, after = (np.empty((2, len(pieces.flat))) for _ in range(2))
    for index, facet in enumerate(facets):
        own = pieces.facet == index
        before = dataclasses.replace(facet, kind=beside.get(facet.kind, facet.kind))
        for found, one in ((until, before), (after, facet)):
            found[0, own] = offsets(spec, one, pieces.flat[own])
            found[1, own] = -1.0 if one.kind in FACING_IN else 1.0
    height: Floats = until[0] + (after[0] - until[0]) * laid
    return height, np.where(laid < 1, until[1], after[1])


#: The stage by whose end the first layers lie on one another.
_PILES_IN = {Finish.TUCKED: "tuck", Finish.LAPPED: "under", Finish.TRIMMED: "over"}


def _parting(spec: FoldSpec, moved: Floats) -> tuple[Floats, Floats]:
    """How far the canvas's own half thickness, and the layers under it, have come in at each moment.

    The first comes in during the first stage, out of the plane z = 0; the others late in the stage that
    brings layers together, so that a hanging strip is not bent by what it will lie on.
    """
    stages = stages_of(spec)
    piling = next(stage for stage in stages if stage.name == _PILES_IN[spec.finish])
    middle = (piling.start + piling.end) / 2
    own = np.clip(moved * len(stages), 0, 1)
    piled = np.clip((moved - middle) / (piling.end - middle), 0, 1)
    return _smooth(own), _smooth(piled)


def _texture_coordinates(
    spec: FoldSpec, flat: Floats, columns: Sequence[float], rows: Sequence[float]
) -> npt.NDArray[np.float32]:
    reach = spec.reach_mm
    across = np.interp(flat[:, 0], [-reach, 0, spec.width_mm, spec.width_mm + reach], columns)
    down = np.interp(flat[:, 1], [-reach, 0, spec.height_mm, spec.height_mm + reach], rows[::-1])
    return np.column_stack([across, down]).astype(np.float32)


def _lines(pieces: Pieces, facet: int, start: Floats, end: Floats) -> list[tuple[int, int]]:
    """The vertices of a facet along a line, paired in order."""
    own = np.flatnonzero(pieces.facet == facet)
    way, off = along_line(start, end, pieces.flat[own])
    on = (off <= NEAR_MM) & (way >= -NEAR_MM) & (way <= float(np.linalg.norm(end - start)) + NEAR_MM)
    inline = own[on][np.argsort(way[on])]
    return [(int(a), int(b)) for a, b in itertools.pairwise(inline)]


def _smooth(share: Floats) -> Floats:
    smooth: Floats = share * share * (3 - 2 * share)
    return smooth
