"""Maps of pixels from one space to another, made of the engine's own steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from pycore.colour.icc.elements import Affine, Curves, Grid, InverseCurves, Stage, run
from pycore.colour.icc.endpoints import Endpoint, channels
from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.icc.transform import hold, make_answer, make_request
from pycore.colour.link.axes import Axis, nodes_of, source_axes
from pycore.colour.link.lattice import CODES, Lattice, make_lattice
from pycore.colour.link.pixel_map import PixelMap
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.srgb import srgb_encode, srgb_encode_unbounded
from pycore.contract.job import Intent

#: By how much what a target is asked for is moved at all nodes of a source's axes: (all nodes, 3) float64
#: differences of Lab, the last channel varying fastest.
Shift = Callable[[Sequence[Axis]], FloatArray]

#: Full scale of every code of 16 bits.
_CODES: Final = np.linspace(0.0, 1.0, CODES)

#: Steps that treat every channel by itself, beside curves and diagonal matrices.
_BY_CHANNEL: Final = (srgb_encode, srgb_encode_unbounded, hold)


def make_pixel_map(
    source: Endpoint,
    target: Endpoint,
    *,
    intent: Intent,
    black_point_compensation: bool,
    shift: Shift | None = None,
) -> PixelMap:
    """Make the map from a source's pixels to a target's.

    The way is cut where the target's own table begins. The first part, as far as the colour that the target
    is asked for and into that table's inputs, is smooth; it is interpolated by tetrahedra between nodes at
    even steps of lightness. The second part is the target's table itself, node for node, with its curves
    before and behind it: what it says is not sampled a second time. A target without a table has its curves
    alone in the second part.

    Parameters
    ----------
    source, target : Profile or Standard
        Grey, RGB or CMYK.
    intent : Intent
    black_point_compensation : bool
    shift : callable, optional
        What is added to the colours that the target is asked for, such as to bring them in.

    Returns
    -------
    PixelMap

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    request = make_request(source, target, intent=intent, black_point_compensation=black_point_compensation)
    axes = source_axes(source, intent=intent)
    encoded = nodes_of(axes)
    asked = request(encoded) if shift is None else request(encoded) + shift(axes)
    stages = make_answer(target, intent=intent).stages
    grid = next((place for place, stage in enumerate(stages) if isinstance(stage, Grid)), len(stages))
    cut = grid
    while cut > 0 and _is_by_channel(stages[cut - 1]):
        cut -= 1
    first = run(stages[:cut], asked)
    low, high = first.min(axis=0), first.max(axis=0)
    span = np.maximum(high - low, 1e-9)
    table = ((first - low) / span).reshape(*(len(axis.encoded) for axis in axes), -1)
    lattices = [make_lattice(table, places=[axis.places for axis in axes], method=Interpolation.TETRAHEDRAL)]
    values = low + _CODES[:, None] * span
    if grid < len(stages):
        second = stages[grid]
        lattices.append(_own_table(second, run(stages[cut:grid], values)))
        values = np.repeat(_CODES[:, None], channels(target), axis=1)
        cut = grid + 1
    return PixelMap(lattices, run(stages[cut:], values))


def _own_table(grid: Stage, before: FloatArray) -> Lattice:
    if not isinstance(grid, Grid):
        raise TypeError(f"a table, not {type(grid).__name__}")
    return make_lattice(grid.table, places=list(before.T), method=grid.method)


def _is_by_channel(stage: Stage) -> bool:
    """No channel has a part in another's result."""
    if isinstance(stage, Affine):
        return bool(np.array_equal(stage.matrix, np.diag(np.diag(stage.matrix))))
    return isinstance(stage, Curves | InverseCurves) or stage in _BY_CHANNEL
