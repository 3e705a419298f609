"""A continued side's pixels at any resolution, laid row by row as its plan says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeVar

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_field import PART, Field, field_of
from pycore.fill.continued_ground import I64, reflected
from pycore.fill.continued_plan import ContinuedPlan

Number = TypeVar("Number", np.uint8, np.uint16)

#: Pixels that are laid at a time.
_AT_A_TIME: Final = 1 << 17

#: Between two pixels, colours are mixed in shares of 1 / 64.
_SHARES: Final = 64


def lay_continued(
    face: npt.NDArray[Number], plan: ContinuedPlan, out: npt.NDArray[Number]
) -> Iterator[float]:
    """Lay a side.

    Parameters
    ----------
    face : (rows, columns, channels) uint8 or uint16
        The picture beside the edge, its last row at the edge.
    plan : ContinuedPlan
        Of these columns.
    out : (depth, columns, channels)
        Row 0 at the edge; written.

    Yields
    ------
    float
        The share that is done.
    """
    depth, columns, channels = out.shape
    field = field_of(plan)
    across = _Between(columns, field.along.shape[1])
    rows = max(1, _AT_A_TIME // columns)
    height = len(face)
    deepest = min(height, int(field.depth.max()) * depth // (plan.depth * PART) + 3)
    planes = [np.ascontiguousarray(face[height - deepest :, :, c][::-1]).ravel() for c in range(channels)]
    for begin in range(0, depth, rows):
        end = min(depth, begin + rows)
        sources = _sources(field, plan, across, begin=begin, end=end, depth=depth, columns=columns)
        _take(planes, sources, (deepest, columns), out[begin:end])
        yield end / depth


class _Between:
    """Columns of the side between the plan's grid lines: which two, and how far from the first."""

    def __init__(self, columns: int, lines: int) -> None:
        # Middles of pixels, in 1 / (2 columns) of the plan's width.
        at = (2 * np.arange(columns, dtype=np.int64) + 1) * (lines - 1)
        self.before = at // (2 * columns)
        self.share = ((at - self.before * 2 * columns) * PART // (2 * columns)).astype(np.int64)

    def __call__(self, values: I64) -> I64:
        low = values[:, self.before]
        return low + ((values[:, self.before + 1] - low) * self.share // PART)


def _sources(
    field: Field, plan: ContinuedPlan, across: _Between, *, begin: int, end: int, depth: int, columns: int
) -> tuple[I64, I64]:
    """Where rows of the side look, in 1 / `_SHARES` pixel: along, from the first pixel's middle, and deep."""
    at = (2 * np.arange(begin, end, dtype=np.int64) + 1) * plan.depth
    before = at // (2 * depth)
    share = ((at - before * 2 * depth) * PART // (2 * depth))[:, np.newaxis]
    wide = len(plan.slope)

    def rows_of(values: I64) -> I64:
        return values[before] + (values[before + 1] - values[before]) * share // PART

    # From plan's pixels to the side's, at the grid lines, where there are few.
    along = rows_of(field.along) * columns * _SHARES // (wide * PART)
    deep = rows_of(field.depth) * depth * _SHARES // (plan.depth * PART)
    return across(along) - _SHARES // 2, np.maximum(across(deep) - _SHARES // 2, 0)


def _take(
    planes: list[npt.NDArray[Number]],
    sources: tuple[I64, I64],
    size: tuple[int, int],
    out: npt.NDArray[Number],
) -> None:
    rows, columns = size
    along, deep = sources
    column, row = along // _SHARES, deep // _SHARES
    right = (along - column * _SHARES).astype(np.uint32)
    down = (deep - row * _SHARES).astype(np.uint32)
    left_at, right_at = reflected(column, columns), reflected(column + 1, columns)
    upper = np.minimum(row, rows - 1) * columns
    lower = np.minimum(row + 1, rows - 1) * columns
    places = upper + left_at, upper + right_at, lower + left_at, lower + right_at
    left, up = _SHARES - right, _SHARES - down
    for channel, plane in enumerate(planes):
        first, second, third, fourth = (plane.take(place).astype(np.uint32) for place in places)
        mixed = (first * left + second * right) * up + (third * left + fourth * right) * down
        mixed += _SHARES * _SHARES // 2
        mixed //= _SHARES * _SHARES
        out[..., channel] = mixed
