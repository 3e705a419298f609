"""A continued side's pixels at any resolution, laid block by block as its plan says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeVar

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_field import PART, Field, field_of
from pycore.fill.continued_ground import I32, I64, reflected
from pycore.fill.continued_known import Marks, colour_cells, known_colours
from pycore.fill.continued_vectors import ContinuedPlan
from pycore.fill.continued_words import mixed_words, packed, unpack_into

Number = TypeVar("Number", np.uint8, np.uint16)

#: Rows and columns that are laid at a time: what they look at lies near together, and little is copied.
_ROWS: Final = 64
_COLUMNS: Final = 1024

#: Between two pixels, colours are mixed in shares of 1 / 64.
_SHARES: Final = 6

#: Nearer to the nearest pixel than in proportion (3 t^2 - 2 t^3): edges stay as sharp as the face has them,
#: and few colours come about between two.
_TOWARDS: Final = np.array([(t * t * (3 * 64 - 2 * t) + 2048) // 4096 for t in range(65)], np.int32)

#: Places are worked out in 1 / 1024 of a pixel; between two grid lines of the plan likewise.
_FINE: Final = 10


def lay_continued(
    face: npt.NDArray[Number], plan: ContinuedPlan, out: npt.NDArray[Number]
) -> Iterator[float]:
    """Lay a side.

    Every pixel is the mean of the four of the face between which its source lies, in shares of 1 / 64, where
    the strip has a colour like that: hard outlines are as smooth as the face's own. Where it has none, the
    pixel stays near to the nearest of the four (`MOST_MIXED`), so that no colour comes about that the face
    has not. Where the source is one pixel exactly, as in a mirror, it is that pixel.

    Parameters
    ----------
    face : (rows, columns, channels) uint8 or uint16
        The picture beside the edge, its last row at the edge. Columns past the face's own, in the sides that
        are there already, count as well.
    plan : ContinuedPlan
        Of these columns, at whatever resolution.
    out : (depth, columns, channels) uint8 or uint16
        Row 0 at the edge; written in place.

    Yields
    ------
    float
        The share that is done.

    Examples
    --------
    >>> from pycore.fill.continued_vectors import mirror_plan
    >>> face = np.arange(6, dtype=np.uint8).reshape(3, 2, 1)
    >>> side = np.zeros((2, 2, 1), np.uint8)
    >>> list(lay_continued(face, mirror_plan(columns=2, depth=40), side)), side[..., 0].tolist()
    ([1.0], [[4, 5], [2, 3]])
    """
    depth, columns, _ = out.shape
    field = field_of(plan)
    away = face[::-1]
    known = known_colours(away[: depth + 1])
    for begin in range(0, columns, _COLUMNS):
        end = min(columns, begin + _COLUMNS)
        across = _Across(begin, end, columns=columns, lines=field.along.shape[1])
        for top in range(0, depth, _ROWS):
            bottom = min(depth, top + _ROWS)
            along, deep = _sources(field, plan, across, rows=(top, bottom), size=(depth, columns))
            _take(away, along, deep, known, out[top:bottom, begin:end])
        yield end / columns


class _Across:
    """Columns of the side between the plan's grid lines: which two, and how far from the first.

    Parameters
    ----------
    begin, end : int
        Columns of the side.
    columns : int
        All that it has.
    lines : int
        Grid lines of the plan.
    """

    def __init__(self, begin: int, end: int, *, columns: int, lines: int) -> None:
        # Middles of pixels, in 1 / (2 columns) of the plan's width.
        at = (2 * np.arange(begin, end, dtype=np.int64) + 1) * (lines - 1)
        before = at // (2 * columns)
        share = ((at - before * 2 * columns) << _FINE) // (2 * columns)
        self._first = int(before[0])
        self._last = int(before[-1]) + 2
        self._before = before - self._first
        self._share = share.astype(np.int32)

    def __call__(self, values: I64) -> I32:
        """Values at the columns, from those at the grid lines."""
        here = values[:, self._first : self._last].astype(np.int32)
        steps = here[:, 1:] - here[:, :-1]
        result = steps[:, self._before]
        result *= self._share
        result >>= _FINE
        result += here[:, self._before]
        return result


def _sources(
    field: Field, plan: ContinuedPlan, across: _Across, *, rows: tuple[int, int], size: tuple[int, int]
) -> tuple[I32, I32]:
    """Where rows of the side look, in shares of a pixel: along, and deep from the edge's first row."""
    depth, columns = size
    at = (2 * np.arange(*rows, dtype=np.int64) + 1) * plan.depth
    before = at // (2 * depth)
    share = ((at - before * 2 * depth) * PART // (2 * depth))[:, np.newaxis]

    def of_rows(values: I64) -> I64:
        between: I64 = values[before] + (values[before + 1] - values[before]) * share // PART
        return between

    # From the plan's pixels to the side's, at the grid lines, where there are few.
    along = (of_rows(field.along) * columns << _FINE) // (len(plan.slope) * PART)
    deep = (of_rows(field.depth) * depth << _FINE) // (plan.depth * PART)
    # From borders to middles of pixels, and to the nearest share: a place that is meant to be a pixel is one.
    to_share = _FINE - _SHARES
    shift = (1 << (_FINE - 1)) - (1 << (to_share - 1))
    return (across(along) - shift) >> to_share, np.maximum((across(deep) - shift) >> to_share, 0)


def _take(away: npt.NDArray[Number], along: I32, deep: I32, known: Marks, out: npt.NDArray[Number]) -> None:
    """Mix the pixels of one block from those that it looks at."""
    rows, columns, _ = away.shape
    column, row = along >> _SHARES, deep >> _SHARES
    within = (1 << _SHARES) - 1
    right, down = _TOWARDS[along & within], _TOWARDS[deep & within]
    next_column, next_row = column + 1, np.minimum(row + 1, rows - 1)
    row = np.minimum(row, rows - 1)
    if int(column.min()) < 0 or int(column.max()) + 1 >= columns:
        column, next_column = reflected(column, columns), reflected(next_column, columns)
    first, top = min(int(column.min()), int(next_column.min())), int(row.min())
    last = max(int(column.max()), int(next_column.max())) + 1
    words = packed(away[top : int(next_row.max()) + 1, first:last])
    width = last - first
    upper, lower = (row - top) * width, (next_row - top) * width
    column, next_column = column - first, next_column - first
    places = upper + column, upper + next_column, lower + column, lower + next_column
    mixed = [mixed_words(plane, places, right, down, _SHARES) for plane in words]
    cells = colour_cells(mixed, itemsize=out.itemsize, channels=out.shape[2], shift=2 * _SHARES)
    kept = np.flatnonzero(~known.take(cells))
    middle = 1 << (_SHARES - 1)
    nearest = np.where((down.flat[kept]) >= middle, lower.flat[kept], upper.flat[kept]) + np.where(
        right.flat[kept] >= middle, next_column.flat[kept], column.flat[kept]
    )
    for number, plane in enumerate(words):
        unpack_into(out, mixed[number], number, 2 * _SHARES, nearest=plane.take(nearest), kept=kept)
