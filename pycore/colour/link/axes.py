"""Where the nodes of a table stand along each channel of a source: where its curves need them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.elements import Curves, Grid, run
from pycore.colour.icc.endpoints import Endpoint, channels, leave
from pycore.colour.link.lattice import CODES, every_code
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lightness import to_lightness
from pycore.contract.job import Intent

#: Nodes along each of one, three and four channels of a print file's table. Steps of lightness then are a
#: sixty-fourth of the scale.
USUAL_NODES: Final = {1: 4097, 3: 65, 4: 25}

#: The share of a straight line that is mixed into a curve, so that it can be turned round where it is flat.
_STRAIGHT: Final = 1e-3

#: How steeply a channel's lightness rises with its codes at least, both 0 to 1, for a table that moves
#: colours. Where a power of light begins, many codes are hardly any light, and one step of lightness would
#: hold them all. sRGB's rises more steeply everywhere. Our own choice.
_LEAST_SLOPE: Final = 0.5

_CODES: Final = np.linspace(0.0, 1.0, CODES)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Axis:
    """One channel of a source.

    Attributes
    ----------
    places : (65536,) float64
        For each code of 16 bits where it lies between the first node (0) and the last (1); never falling.
    encoded : (nodes,) float64
        The encoded value, 0 to 1, at each node.
    """

    places: FloatArray
    encoded: FloatArray

    @property
    def even_places(self) -> FloatArray:
        """As `places`, but in even steps of the codes between two nodes: (65536,) float64.

        A table of what is added to codes wants these, since the codes themselves go on evenly.
        """
        places: FloatArray = np.interp(_CODES, self.encoded, np.linspace(0.0, 1.0, len(self.encoded)))
        return places

    def place_of(self, encoded: FloatArray) -> FloatArray:
        """Where encoded values lie.

        Parameters
        ----------
        encoded : (n,) float64
            0 to 1.

        Returns
        -------
        (n,) float64
            From 0 at the first node to 1 at the last.
        """
        return np.interp(encoded, _CODES, self.places)


def source_axes(source: Endpoint, *, intent: Intent, nodes: int | None = None) -> tuple[Axis, ...]:
    """Choose the nodes for a source.

    A source whose channels are light (a matrix or a grey curve) has its nodes at even steps of lightness. One
    that begins with a table of its own has them at that table's nodes, since there its own corners are, and
    between those: evenly, and on all channels equally many, where the table gives Lab, so that the tetrahedra
    are parts of the table's own; where it gives XYZ, at even steps of a grey's lightness.

    Parameters
    ----------
    source : Profile or Standard
        Grey, RGB or CMYK.
    intent : Intent
        Chooses the source's table.
    nodes : int, optional
        Along each channel, in even steps, whatever table there is. Without it as many as are usual for so
        many channels, in all.

    Returns
    -------
    tuple of Axis
        One for each channel.

    Raises
    ------
    ProfileError
        The profile lacks what is needed, or is damaged.
    """
    count = channels(source)
    way = leave(source, intent)
    every = every_code(count)
    place = next((place for place, stage in enumerate(way.stages) if isinstance(stage, Grid)), None)
    if place is None:
        first = way.stages[0] if way.stages else None
        light = first(every) if isinstance(first, Curves) else every
        return tuple(
            curve_axis(to_lightness(np.clip(one, 0.0, 1.0)), nodes=nodes or USUAL_NODES[count])
            for one in light.T
        )
    curves = every
    for stage in way.stages[:place]:
        curves = stage(curves) if isinstance(stage, Curves) else curves
    table = way.stages[place]
    own = table.table.shape[:-1] if isinstance(table, Grid) else ()
    inner = [_own_nodes(curves[:, channel], nodes=own[channel]) for channel in range(count)]
    # All inks together say nothing of the light of one.
    by_light = way.pcs == "XYZ" and count < 4
    if by_light:
        curves = np.repeat(to_lightness(np.clip(run(way.stages, every)[:, 1:2], 0.0, 1.0)), count, axis=1)
    if nodes:
        return tuple(_axis(curves[:, channel], steps=[nodes - 1]) for channel in range(count))
    most = USUAL_NODES[count]
    times = _times(own, most**count)
    axes = []
    for channel, one in enumerate(inner):
        curve = curves[:, channel]
        steps = _shares(curve, one, most - 1) if by_light else [times] * (len(one) + 1)
        axes.append(_axis(curve, steps=steps, inner=one))
    return tuple(axes)


def moved_axes(source: Endpoint, *, intent: Intent) -> tuple[Axis, ...]:
    """Choose the nodes for a table that moves colours, such as to bring them in.

    They are the usual ones, but where a source's own table leaves a channel with less than half of them.
    There the moves bend more than that table does, and all channels have equally many nodes, in even steps.
    Where a power of light begins, the nodes stand more closely.

    Parameters
    ----------
    source : Profile or Standard
        Grey, RGB or CMYK.
    intent : Intent
        Chooses the source's table.

    Returns
    -------
    tuple of Axis
        One for each channel.

    Raises
    ------
    ProfileError
        The profile lacks what is needed, or is damaged.
    """
    axes = source_axes(source, intent=intent)
    usual = USUAL_NODES[len(axes)]
    if 2 * min(len(axis.encoded) for axis in axes) >= usual:
        way = leave(source, intent)
        has_table = any(isinstance(stage, Grid) for stage in way.stages)
        return axes if has_table else tuple(_closer_where_flat(axis) for axis in axes)
    return source_axes(source, intent=intent, nodes=usual)


def curve_axis(curve: FloatArray, *, nodes: int) -> Axis:
    """Nodes at even steps of a curve.

    Parameters
    ----------
    curve : (65536,) float64
        Rising or falling, for each code of 16 bits; 0 to 1, held there.
    nodes : int

    Returns
    -------
    Axis
    """
    return _axis(curve, steps=[nodes - 1])


def nodes_of(axes: Sequence[Axis]) -> FloatArray:
    """The encoded values at all nodes.

    Parameters
    ----------
    axes : sequence of Axis

    Returns
    -------
    (all nodes, channels) float64
        The last channel varies fastest.
    """
    places = np.meshgrid(*(axis.encoded for axis in axes), indexing="ij")
    return np.stack([one.ravel() for one in places], axis=1)


def _closer_where_flat(axis: Axis) -> Axis:
    """As many nodes, but more closely where codes rise and light does not yet; places go on by light."""
    if np.all(axis.places >= _LEAST_SLOPE * _CODES):
        return axis
    nodes = len(axis.encoded)
    encoded = curve_axis(np.maximum(axis.places, _LEAST_SLOPE * _CODES), nodes=nodes).encoded
    places = np.interp(axis.places, axis.place_of(encoded), np.linspace(0.0, 1.0, nodes))
    return Axis(places=places, encoded=encoded)


def _axis(curve: FloatArray, *, steps: Sequence[int], inner: FloatArray | None = None) -> Axis:
    """So many even steps of a curve as far as each of some encoded values, and on to its end."""
    rising = _rising(curve)
    ends = _ends(rising, inner)
    parts = [
        np.linspace(low, high, count, endpoint=False)
        for low, high, count in zip(ends[:-1], ends[1:], steps, strict=True)
    ]
    at = np.concatenate([*parts, rising[-1:]])
    places = np.interp(rising, at, np.linspace(0.0, 1.0, len(at)))
    return Axis(places=places, encoded=np.interp(at, rising, _CODES))


def _ends(rising: FloatArray, inner: FloatArray | None) -> FloatArray:
    """Where a curve begins, passes some encoded values and ends."""
    middle = np.zeros(0) if inner is None else np.interp(inner, _CODES, rising)
    return np.concatenate([rising[:1], middle, rising[-1:]])


def _rising(curve: FloatArray) -> FloatArray:
    """A curve from left to right, 0 to 1, that never falls and nowhere stands still."""
    return (1.0 - _STRAIGHT) * _never_falling(curve) + _STRAIGHT * _CODES


def _never_falling(curve: FloatArray) -> FloatArray:
    held = np.clip(curve if curve[-1] >= curve[0] else 1.0 - curve, 0.0, 1.0)
    result: FloatArray = np.maximum.accumulate(held)
    return result


def _own_nodes(curve: FloatArray, *, nodes: int) -> FloatArray:
    """The encoded values at those of a table's nodes that the curve before it passes between its ends."""
    steps, held = np.linspace(0.0, 1.0, nodes), _never_falling(curve)
    found: FloatArray = np.interp(steps[(steps > held[0]) & (steps < held[-1])], held, _CODES)
    return found


def _shares(curve: FloatArray, inner: FloatArray, steps: int) -> list[int]:
    """How many of so many steps each part of a curve gets, by how far it rises there; at least one."""
    rise = np.diff(_ends(_rising(curve), inner))
    return [max(round(float(one)), 1) for one in rise * (steps / rise.sum())]


def _times(own: Sequence[int], limit: int) -> int:
    """How often each step of a table can be divided with all nodes within a limit; at least once."""
    times = 1
    while math.prod((one - 1) * (times + 1) + 1 for one in own) <= limit:
        times += 1
    return times
