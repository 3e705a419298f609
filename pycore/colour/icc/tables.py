"""The table tags of ICC profiles, `mft1`, `mft2`, `mAB ` and `mBA `, read into stages."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from pycore.colour.icc.block import Block
from pycore.colour.icc.curves import Curve, SampledCurve, read_curve
from pycore.colour.icc.elements import Affine, Curves, Grid, Stage
from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.spaces.arrays import FloatArray
from pycore.speech import say

#: `mft2` curve tables have 2 to 4096 entries. Published: ICC.1:2022, 10.10.
_MAX_MFT_ENTRIES: Final = 4096

#: Values in the largest table that is read: more than 33 nodes in four inputs with three outputs need.
_MAX_GRID_VALUES: Final = 4_000_000


def read_table(
    block: Block, *, inputs: int, outputs: int, forward: bool, pcs: str
) -> tuple[tuple[Stage, ...], str]:
    """Read a table tag.

    Parameters
    ----------
    block : Block
        An A2B or B2A tag.
    inputs, outputs : int
        What the profile's colour spaces ask for.
    forward : bool
        True for A2B tags, False for B2A tags: each has its own newer type.
    pcs : str
        "Lab" or "XYZ".

    Returns
    -------
    tuple of stages and str
        The stages work on fractions of full scale; the tag type names the encoding.

    Raises
    ------
    ProfileError
        Another type or another number of channels; an offset, count or size that does not fit.

    References
    ----------
    ICC.1:2022, 10.10 (lut16Type), 10.11 (lut8Type), 10.12 (lutAToBType), 10.13 (lutBToAType).
    """
    kind = block.require_type("mft1", "mft2", "mAB " if forward else "mBA ")
    # Tetrahedra favour the diagonal of a cell, which is the grey axis of a device but not of Lab: there grey
    # runs along one axis, and a box treats both sides of it alike.
    method = Interpolation.TRILINEAR if pcs == "Lab" and not forward else Interpolation.TETRAHEDRAL
    found = block.u8(8), block.u8(9)
    if found != (inputs, outputs):
        raise block.wrong(
            expected=say(
                "{inputs} channels in and {outputs} out, as the header says", inputs=inputs, outputs=outputs
            ),
            got=say("{found0} in and {found1} out", found0=found[0], found1=found[1]),
        )
    if kind in {"mft1", "mft2"}:
        return _read_mft(block, wide=kind == "mft2", inputs=inputs, outputs=outputs, method=method), kind
    return _read_curve_table(block, inputs=inputs, outputs=outputs, forward=forward, method=method), kind


def _read_mft(
    block: Block, *, wide: bool, inputs: int, outputs: int, method: Interpolation
) -> tuple[Stage, ...]:
    nodes = _checked_nodes(block, [block.u8(10)] * inputs, outputs)
    matrix = block.fixeds(12, 9).reshape(3, 3)
    entries_in, entries_out, at, size = 256, 256, 48, 1
    if wide:
        entries_in, entries_out, at, size = block.u16(48), block.u16(50), 52, 2
        for name, count in (("input", entries_in), ("output", entries_out)):
            if not 2 <= count <= _MAX_MFT_ENTRIES:
                raise block.wrong(
                    expected=say(
                        "2 to {max_mft_entries} entries in each {name} table",
                        max_mft_entries=_MAX_MFT_ENTRIES,
                        name=name,
                    ),
                    got=str(count),
                )
    read = block.u16s if wide else block.u8s
    curves_in = read(at, inputs * entries_in).reshape(inputs, entries_in)
    at += inputs * entries_in * size
    count = math.prod(nodes) * outputs
    table = read(at, count).reshape(*nodes, outputs)
    at += count * size
    curves_out = read(at, outputs * entries_out).reshape(outputs, entries_out)
    stages: list[Stage] = []
    # The matrix is for XYZ input; with other spaces it must be the identity (10.10), and then does nothing.
    if inputs == 3 and not np.array_equal(matrix, np.eye(3)):
        stages.append(Affine(matrix=matrix, offset=np.zeros(3)))
    stages.append(Curves(curves=tuple(SampledCurve(samples=one) for one in curves_in)))
    stages.append(Grid(table=table, method=method))
    stages.append(Curves(curves=tuple(SampledCurve(samples=one) for one in curves_out)))
    return tuple(stages)


def _read_curve_table(
    block: Block, *, inputs: int, outputs: int, forward: bool, method: Interpolation
) -> tuple[Stage, ...]:
    offsets = [block.u32(12 + 4 * index) for index in range(5)]
    at_b, at_matrix, at_m, at_grid, at_a = offsets
    device, pcs = (inputs, outputs) if forward else (outputs, inputs)
    if at_b == 0:
        raise block.wrong(expected=say("B curves"), got=say("none"))
    if at_grid == 0 and inputs != outputs:
        raise block.wrong(
            expected=say(
                "a colour table from {inputs} to {outputs} channels", inputs=inputs, outputs=outputs
            ),
            got=say("none"),
        )
    if (at_grid == 0) != (at_a == 0):
        raise block.wrong(expected=say("a colour table and A curves, or neither"), got=say("one of the two"))
    if (at_matrix == 0) != (at_m == 0):
        raise block.wrong(expected=say("a matrix and M curves, or neither"), got=say("one of the two"))
    stages: list[Stage] = []
    if at_a:
        stages.append(_curve_set(block, at_a, device, say("A curve")))
        stages.append(Grid(table=_clut(block, at_grid, inputs, outputs), method=method))
    if at_m:
        stages.append(_curve_set(block, at_m, pcs, say("M curve")))
        numbers = block.part(at_matrix, 48, name="matrix").fixeds(0, 12)
        stages.append(Affine(matrix=numbers[:9].reshape(3, 3), offset=numbers[9:]))
    stages.append(_curve_set(block, at_b, pcs, say("B curve")))
    if forward:
        return tuple(stages)
    # B2A runs B, matrix, M, table, A: the same elements turned round, but the pairs stay in their order.
    return tuple(reversed(stages))


def _curve_set(block: Block, at: int, count: int, name: str) -> Curves:
    curves: list[Curve] = []
    for index in range(count):
        curve, size = read_curve(block.rest(at, name=f"{name} {index + 1}"))
        curves.append(curve)
        # 10.12.2: every curve begins on a multiple of four bytes.
        at += (size + 3) // 4 * 4
    return Curves(curves=tuple(curves))


def _clut(block: Block, at: int, inputs: int, outputs: int) -> FloatArray:
    part = block.rest(at, name=say("colour table"))
    nodes = _checked_nodes(part, [part.u8(index) for index in range(inputs)], outputs)
    count = math.prod(nodes) * outputs
    precision = part.u8(16)
    if precision not in {1, 2}:
        raise part.wrong(expected=say("a precision of 1 or 2 bytes"), got=str(precision))
    values = part.u8s(20, count) if precision == 1 else part.u16s(20, count)
    return values.reshape(*nodes, outputs)


def _checked_nodes(block: Block, nodes: list[int], outputs: int) -> list[int]:
    if min(nodes) < 2:
        raise block.wrong(expected=say("at least 2 nodes in every input"), got=" x ".join(map(str, nodes)))
    if math.prod(nodes) * outputs > _MAX_GRID_VALUES:
        raise block.wrong(
            expected=say(
                "at most {max_grid_values} values in the colour table", max_grid_values=_MAX_GRID_VALUES
            ),
            got=" x ".join(map(str, nodes)),
        )
    return nodes
