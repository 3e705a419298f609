"""Where the nodes of a table stand along each channel of a source, so that they lie where its curves need them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.elements import Curves, Grid
from pycore.colour.icc.endpoints import Endpoint, channels, leave
from pycore.colour.link.lattice import CODES
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Intent

#: Nodes along each of one, three and four channels. Steps of lightness then are a sixty-fourth of the scale.
_MOST_NODES: Final = {1: 4097, 3: 65, 4: 25}

#: The share of a straight line that is mixed into a curve, so that it can be turned round where it is flat.
_STRAIGHT: Final = 1e-3


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


def source_axes(source: Endpoint, *, intent: Intent, nodes: int | None = None) -> tuple[Axis, ...]:
    """Choose the nodes for a source.

    A source whose channels are light (a matrix or a grey curve) has its nodes at even steps of lightness. One
    that begins with a table of its own has them at that table's nodes, and evenly between those, after the
    curves that lead into it: there its own corners are.

    Parameters
    ----------
    source : Profile or Standard
        Grey, RGB or CMYK.
    intent : Intent
        Chooses the source's table.
    nodes : int, optional
        Along each channel. Without it as many as are usual for so many channels; of a source that begins with
        a table about as many, so that each of the table's own is among them.

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
    most = _MOST_NODES[count]
    codes = np.linspace(0.0, 1.0, CODES)
    every = np.repeat(codes[:, None], count, axis=1)
    stages = leave(source, intent).stages
    grid = next((place for place, stage in enumerate(stages) if isinstance(stage, Grid)), None)
    if grid is None:
        light = stages[0](every) if stages and isinstance(stages[0], Curves) else every
        return tuple(_axis(_lightness(light[:, channel]), nodes or most) for channel in range(count))
    for stage in stages[:grid]:
        every = stage(every) if isinstance(stage, Curves) else every
    table = stages[grid]
    own = table.table.shape[:-1] if isinstance(table, Grid) else ()
    return tuple(
        _axis(every[:, channel], nodes or _multiple(own[channel], most)) for channel in range(count)
    )


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


def _axis(curve: FloatArray, nodes: int) -> Axis:
    rising = np.maximum.accumulate(np.clip(curve if curve[-1] >= curve[0] else 1.0 - curve, 0.0, 1.0))
    places = (1.0 - _STRAIGHT) * rising + _STRAIGHT * np.linspace(0.0, 1.0, CODES)
    encoded = np.interp(np.linspace(0.0, 1.0, nodes), places, np.linspace(0.0, 1.0, CODES))
    return Axis(places=places, encoded=encoded)


def _lightness(light: FloatArray) -> FloatArray:
    """L* of linear light, 0 to 1 of both (CIE 15:2018, 8.2.1)."""
    held = np.clip(light, 0.0, 1.0)
    return np.where(held > 216.0 / 24389.0, 1.16 * np.cbrt(held) - 0.16, held * (24389.0 / 2700.0))


def _multiple(own: int, limit: int) -> int:
    """As many nodes as a table's own and as many again between each two as the limit allows."""
    return max((limit - 1) // (own - 1), 1) * (own - 1) + 1
