"""What bringing in adds at the nodes of a table, so that between them, too, what lies inside stays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint, channels
from pycore.colour.icc.transform import make_return
from pycore.colour.link.axes import Axis, nodes_of
from pycore.colour.link.make_map import Shift
from pycore.colour.link.proof import clip_request, colorimetric
from pycore.colour.mapping.bring_in import ROOM_DE, BringIn
from pycore.colour.spaces.arrays import BoolArray, FloatArray, IndexArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.errors import ProfileError

#: How far a table may move what lies inside the gamut between two of its nodes, in CIEDE2000. Bringing in
#: itself moves the boundary by 0.7, and a canvas's table may make a little more of it.
_BETWEEN_DE: Final = 0.85

#: By how much more than its neighbours a node may be moved, in CIEDE2000, in a table of so many steps: a
#: gradient that crosses the cell between them must not break. Our own choice: with less, colours stay
#: outside.
_GROWTH_DE: Final = 8.0
_STEPS: Final = 64

#: Places on a triangle of the boundary, as shares of its corners: ten, a third of its sides apart.
_ON_TRIANGLE: Final = [
    np.array([one, other, 3 - one - other]) / 3.0 for one in range(4) for other in range(4 - one)
]

#: A source reaches a colour that its values give back as closely as this, in units of CIELAB.
_REACHED: Final = 0.05

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
        From the source's axes to (all nodes, 3) float64 differences of Lab, which nobody may change: whoever
        asks for the same nodes again, as the screen's table and the print file's do, gets the same array.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)

    kept: dict[tuple[bytes, ...], FloatArray] = {}

    def shift(axes: Sequence[Axis]) -> FloatArray:
        key = tuple(axis.encoded.tobytes() for axis in axes)
        moves = kept.get(key)
        if moves is None:
            edge = boundary_values(
                source, gamut, intent=intent, black_point_compensation=black_point_compensation
            )
            moves = node_moves(bring_in, request(nodes_of(axes)), axes, boundary=edge)
            moves.flags.writeable = False
            kept[key] = moves
        return moves

    return shift


def boundary_values(
    source: Endpoint, gamut: DeviceGamut, *, intent: Intent, black_point_compensation: bool
) -> FloatArray:
    """The values with which a source asks for what lies on a canvas's boundary.

    Parameters
    ----------
    source : Profile or Standard
        Grey, RGB or CMYK.
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool

    Returns
    -------
    (n, 3) float64
        Red, green and blue, 0 to 1, spread over the boundary as far as the source reaches it. None of a grey
        or a CMYK source, nor of one that has no way back from Lab.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    if channels(source) != 3:
        return np.zeros((0, 3))
    try:
        back = make_return(
            source,
            gamut.profile,
            intent=colorimetric(intent),
            black_point_compensation=black_point_compensation,
        )
    except ProfileError:
        return np.zeros((0, 3))
    corners = gamut.mesh.lab_d50[gamut.mesh.triangles]
    lab = np.concatenate([np.tensordot(one, corners, (0, 1)) for one in _ON_TRIANGLE])
    values = np.clip(back(lab), 0.0, 1.0)
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    found = request(values)
    reached: FloatArray = values[np.abs(found - lab).max(axis=1) < _REACHED]
    return reached


def node_moves(
    bring_in: BringIn, wanted_lab: FloatArray, axes: Sequence[Axis], *, boundary: FloatArray
) -> FloatArray:
    """By how much the nodes of a table are moved.

    Where the boundary is steep, as beside the lightest yellow, one node of a cell may lie inside and another
    one be moved far: what lies between them would be moved, too, inside or not. So a node that an edge of the
    table joins to one inside is moved by less where that edge would else move what lies inside; so are the
    nodes round what lies on the boundary itself, which may look into a cell with no node inside. From there
    on moves grow from cell to cell.

    Parameters
    ----------
    bring_in : BringIn
    wanted_lab : (all nodes, 3) float64
        What the canvas is asked for at each node, relative to its white; the last axis varies fastest.
    axes : sequence of Axis
        Of the table.
    boundary : (n, 3) float64
        The source's values on the gamut's boundary, from `boundary_values`.

    Returns
    -------
    (all nodes, 3) float64
        Differences of Lab; 0 where nothing moves.
    """
    moves: FloatArray = bring_in(wanted_lab) - wanted_lab
    moved = np.flatnonzero(moves.any(axis=1))
    far: FloatArray = np.zeros(len(moves))
    far[moved] = delta_e_2000(wanted_lab[moved], wanted_lab[moved] + moves[moved])
    most = far.copy()
    counts = tuple(len(axis.encoded) for axis in axes)
    steps = math.prod(count - 1 for count in counts) ** (1.0 / len(counts))
    outer, inner = _edges(far > _BETWEEN_DE, counts)
    ends, which = np.unique(inner, return_inverse=True)
    within = bring_in.inside(wanted_lab[ends])[which]
    least = np.minimum(far[inner], ROOM_DE)
    start, stop = wanted_lab[inner], wanted_lab[outer]
    bound = np.where(within, _bound(bring_in, start, stop, least, far[outer]), np.inf)
    np.minimum.at(most, outer, bound)
    _bound_around(boundary, axes, most)
    most = _growing(most, counts, by=_GROWTH_DE * _STEPS / steps)
    less = np.flatnonzero(most < far)
    moves[less] *= (most[less] / far[less])[:, None]
    return moves


def _bound(
    bring_in: BringIn, inner_lab: FloatArray, outer_lab: FloatArray, least: FloatArray, far: FloatArray
) -> FloatArray:
    """The most that the outer ends of edges may be moved so that what lies inside on them is not moved far.

    Infinite where that sets no bound; `least` and `far` are what both ends are moved by.
    """
    bound: FloatArray = np.full(len(far), np.inf)
    left: IndexArray = np.arange(len(far))
    # As far along the edge as this it is moved by no more than may be.
    share = (_BETWEEN_DE - least) / (far - least)
    for _ in range(_HALVINGS):
        still = bring_in.inside(inner_lab[left] + share[:, None] * (outer_lab[left] - inner_lab[left]))
        left, share = left[still], (share[still] + 1.0) / 2.0
        bound[left] = least[left] + (_BETWEEN_DE - least[left]) / share
    bound[left] = _BETWEEN_DE
    return bound


def _bound_around(values: FloatArray, axes: Sequence[Axis], most: FloatArray) -> None:
    """Lower the most that nodes are moved by, so that between them the given values are not moved far.

    A value's tetrahedron has four nodes, whose shares are the steps between its falling fractions. Those of
    them that are moved far are moved by as much less as the value needs.
    """
    if not len(values):
        return
    counts = [len(axis.encoded) for axis in axes]
    at = np.stack(
        [
            axis.place_of(values[:, channel]) * (count - 1)
            for channel, (axis, count) in enumerate(zip(axes, counts, strict=True))
        ],
        axis=1,
    )
    cell = np.minimum(at.astype(np.intp), np.array(counts) - 2)
    part = at - cell
    order = np.argsort(-part, axis=1, kind="stable")
    part = np.take_along_axis(part, order, axis=1)
    share = -np.diff(part, axis=1, prepend=1.0, append=0.0)
    strides = np.array([math.prod(counts[channel + 1 :]) for channel in range(len(counts))], dtype=np.intp)
    node = np.cumsum(np.concatenate([(cell @ strides)[:, None], strides[order]], axis=1), axis=1)
    far = most[node]
    over = np.flatnonzero((share * far).sum(axis=1) > _BETWEEN_DE + 1e-6)
    node, share, beyond = node[over], share[over], far[over] - _BETWEEN_DE
    # What the nodes that are moved little leave to the others.
    left = (share * np.maximum(-beyond, 0.0)).sum(axis=1) / (share * np.maximum(beyond, 0.0)).sum(axis=1)
    bound = np.where(beyond > 0.0, _BETWEEN_DE + beyond * left[:, None], np.inf)
    np.minimum.at(most, node, bound)


def _growing(most: FloatArray, counts: tuple[int, ...], *, by: float) -> FloatArray:
    """The most that each node is moved by, if that grows by no more than so much from cell to cell."""
    bound = most.reshape(counts)
    while True:
        near = bound
        for axis in range(len(counts)):
            along = np.moveaxis(near, axis, 0)
            least = along.copy()
            np.minimum(least[1:], along[:-1], out=least[1:])
            np.minimum(least[:-1], along[1:], out=least[:-1])
            near = np.moveaxis(least, 0, axis)
        less = np.minimum(bound, near + by)
        if np.array_equal(less, bound):
            return bound.ravel()
        bound = less


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
