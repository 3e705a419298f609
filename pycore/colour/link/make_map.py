"""Maps of pixels from one space to another, made of the engine's own steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.elements import Affine, Curves, Grid, InverseCurves, Stage, run
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.icc.transform import hold, make_answer, make_request
from pycore.colour.link.axes import Axis, curve_axis, moved_axes, nodes_of, source_axes
from pycore.colour.link.lattice import Lattice, every_code, make_lattice, value_range
from pycore.colour.link.map_miss import map_miss
from pycore.colour.link.pixel_map import PixelMap
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab
from pycore.colour.spaces.lightness import to_light, to_lightness
from pycore.colour.spaces.srgb import srgb_encode, srgb_encode_unbounded
from pycore.contract.job import Intent
from pycore.errors import ProfileError

#: By how much what a target is asked for is moved at all nodes of a source's axes: (all nodes, 3) float64
#: differences of Lab, the last channel varying fastest.
Shift = Callable[[Sequence[Axis]], FloatArray]

#: Nodes along each channel of a source's table's results.
_MIDDLE_NODES: Final = 65

#: Where else a way may be cut: behind the source's own table, or before it; between steps of lightness or of
#: light, in a target that is asked for light.
_OTHER_CUTS: Final = ((False, True), (True, False), (True, True))

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

    Where a source begins with a table of its own, some hundred colours are looked at. If the map misses them,
    another one is made: between steps of lightness where a target's table is asked for light, or with the
    source's table, too, taken node for node and only what follows it sampled.

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
    axes = source_axes(source, intent=intent) if shift is None else moved_axes(source, intent=intent)
    asked = request(nodes_of(axes))
    first = _Smooth(axes=axes, asked=asked if shift is None else asked + shift(axes))
    last = make_answer(target, intent=intent).stages
    made = _joined(first, last, by_lightness=False)
    own = next((stage for stage in request.stages if isinstance(stage, Grid)), None)
    if own is None or shift is not None:
        return made
    try:
        miss = map_miss(source, target, intent=intent, black_point_compensation=black_point_compensation)
    except ProfileError:
        # Nobody can tell what a target shows that has no way to Lab.
        return made
    least = miss(made)
    for behind_table, by_lightness in _OTHER_CUTS:
        if least <= 1.0:
            break
        part = _behind_table(request.stages, own) if behind_table else first
        other = _joined(part, last, by_lightness=by_lightness)
        missed = miss(other)
        if missed < least:
            made, least = other, missed
    return made


@dataclass(frozen=True, kw_only=True, slots=True)
class _Smooth:
    """The part of a way that is sampled.

    Attributes
    ----------
    axes : sequence of Axis
        Of what goes into it.
    asked : (all nodes, 3) float64
        The Lab that the target is asked for.
    before : Lattice or None
        What makes of a source's pixels what goes into it; None where these go into it.
    """

    axes: Sequence[Axis]
    asked: FloatArray
    before: Lattice | None = None


def _behind_table(stages: Sequence[Stage], own: Grid) -> _Smooth:
    """What follows a source's own table, sampled at even steps of lightness of that table's results."""
    place = stages.index(own)
    inputs, outputs = own.table.ndim - 1, own.table.shape[-1]
    low, span = value_range(own.table)
    before = make_lattice(
        (own.table - low) / span, places=list(run(stages[:place], every_code(inputs)).T), method=own.method
    )
    curves, after = low + every_code(outputs) * span, list(stages[place + 1 :])
    while after and _is_by_channel(after[0]):
        curves = after.pop(0)(curves)
    if after and after[0] is xyz_to_lab:
        curves = to_lightness(curves / D50_XYZ)
    rise = curves[-1] - curves[0]
    curves = (curves - curves[0]) / np.where(rise == 0.0, 1.0, rise)
    axes = [curve_axis(one, nodes=_MIDDLE_NODES) for one in curves.T]
    asked = run(stages[place + 1 :], low + nodes_of(axes) * span)
    return _Smooth(axes=axes, asked=asked, before=before)


def _joined(part: _Smooth, stages: Sequence[Stage], *, by_lightness: bool) -> PixelMap:
    """A smooth part and what follows from Lab on, cut before the curves before the target's own table."""
    table = next((stage for stage in stages if isinstance(stage, Grid)), None)
    grid = len(stages) if table is None else list(stages).index(table)
    cut = grid
    while cut > 0 and _is_by_channel(stages[cut - 1]):
        cut -= 1
    first = run(stages[:cut], part.asked)
    # A target that is asked for Lab is cut there.
    light = by_lightness and cut > 0
    if light:
        first = to_lightness(first)
    low, span = value_range(first)
    nodes = ((first - low) / span).reshape(*(len(axis.encoded) for axis in part.axes), -1)
    lattices = [] if part.before is None else [part.before]
    lattices.append(
        make_lattice(nodes, places=[one.places for one in part.axes], method=Interpolation.TETRAHEDRAL)
    )
    values = low + every_code(len(low)) * span
    if light:
        values = to_light(values)
    if table is not None:
        places = list(run(stages[cut:grid], values).T)
        lattices.append(make_lattice(table.table, places=places, method=table.method))
        values = every_code(table.table.shape[-1])
        cut = grid + 1
    return PixelMap(lattices, run(stages[cut:], values))


def _is_by_channel(stage: Stage) -> bool:
    """No channel has a part in another's result."""
    if isinstance(stage, Affine):
        return bool(np.array_equal(stage.matrix, np.diag(np.diag(stage.matrix))))
    return isinstance(stage, Curves | InverseCurves) or stage in _BY_CHANNEL
