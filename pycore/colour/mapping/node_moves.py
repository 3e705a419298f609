"""What bringing in adds at the nodes of a table, so that between them, too, what lies inside stays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.link.axes import USUAL_NODES, Axis, nodes_of
from pycore.colour.link.make_map import Shift
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.bring_in import ROOM_DE, BringIn
from pycore.colour.spaces.arrays import BoolArray, FloatArray, IndexArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

#: How far a table may move what lies inside the gamut between two of its nodes, in CIEDE2000. Bringing in
#: itself moves the boundary by 0.7, and a canvas's table may make a little more of it.
_BETWEEN_DE: Final = 0.85

#: How often the place where an edge of the table leaves the gamut is narrowed down.
_HALVINGS: Final = 2


def bring_in_shift(
    bring_in: BringIn, source: Endpoint, gamut: DeviceGamut, *, intent: Intent, black_point_compensation: bool
) -> Shift:
    """By how much bringing in moves what the canvas is asked for.

    Parameters
    ----------
    bring_in : BringIn
    source : Profile or Standard
        Grey, RGB or CMYK; another than the fit's if it has the same colours.
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
        As they were for the fit.

    Returns
    -------
    callable
        From the source's axes to (all nodes, 3) float64 differences of Lab.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)

    def shift(axes: Sequence[Axis]) -> FloatArray:
        steps = math.prod(len(axis.encoded) - 1 for axis in axes) ** (1.0 / len(axes))
        parts = max(round((USUAL_NODES[len(axes)] - 1) / steps), 1)
        return node_moves(bring_in, request(nodes_of(axes)), axes, parts=parts)

    return shift


def node_moves(bring_in: BringIn, wanted_lab: FloatArray, axes: Sequence[Axis], *, parts: int) -> FloatArray:
    """By how much the nodes of a table are moved.

    Where the boundary is steep, as beside the lightest yellow, one node of a cell may lie inside and another
    one be moved far: what lies between them would be moved, too, inside or not. So a node that an edge of the
    table joins to one inside is moved by less where that edge would else move what lies inside.

    Parameters
    ----------
    bring_in : BringIn
    wanted_lab : (all nodes, 3) float64
        What the canvas is asked for at each node, relative to its white; the last axis varies fastest.
    axes : sequence of Axis
        Of the table.
    parts : int
        How many steps of a print file's table one of this table's is: what the screen shows is moved at its
        nodes as the print is.

    Returns
    -------
    (all nodes, 3) float64
        Differences of Lab; 0 where nothing moves.
    """
    moves: FloatArray = bring_in(wanted_lab) - wanted_lab
    moved = np.flatnonzero(moves.any(axis=1))
    far = np.zeros(len(moves))
    far[moved] = delta_e_2000(wanted_lab[moved], wanted_lab[moved] + moves[moved])
    most = far.copy()
    outer, inner = _edges(far > _BETWEEN_DE, tuple(len(axis.encoded) for axis in axes))
    # The other end of such an edge, and by how much that is moved: by less than the room if it lies inside.
    ends, which = np.unique(inner, return_inverse=True)
    if parts == 1:
        within, end, least = bring_in.inside(wanted_lab[ends])[which], wanted_lab[inner], far[inner]
    else:
        end = wanted_lab[outer] + (wanted_lab[inner] - wanted_lab[outer]) / parts
        within, least = bring_in.inside(end), np.minimum(far[inner], ROOM_DE)
    outer, end, least = outer[within], end[within], least[within]
    # As far along the edge as this it is moved by no more than may be.
    share = (_BETWEEN_DE - least) / (far[outer] - least)
    for _ in range(_HALVINGS):
        still = bring_in.inside(end + share[:, None] * (wanted_lab[outer] - end))
        outer, end, least, share = outer[still], end[still], least[still], (share[still] + 1.0) / 2.0
        np.minimum.at(most, outer, least + (_BETWEEN_DE - least) / share)
    np.minimum.at(most, outer, _BETWEEN_DE)
    less = np.flatnonzero(most < far)
    moves[less] *= (most[less] / far[less])[:, None]
    return moves


def _edges(far: BoolArray, counts: tuple[int, ...]) -> tuple[IndexArray, IndexArray]:
    """The edges of a table's tetrahedra from nodes that are moved far to nodes that are not."""
    places = np.arange(len(far)).reshape(counts)
    outer, inner = [], []
    for step in np.ndindex(*[2] * len(counts)):
        first = places[tuple(slice(count - one) for one, count in zip(step, counts, strict=True))].ravel()
        second = places[tuple(slice(one, None) for one in step)].ravel()
        for one, other in ((first, second), (second, first)):
            found = np.flatnonzero(far[one] & ~far[other])
            outer.append(one[found])
            inner.append(other[found])
    return np.concatenate(outer), np.concatenate(inner)
