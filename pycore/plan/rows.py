"""Rows and columns: each job's equal canvases on sheets of their own. No plan is worse than this."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from pycore.conventions import EQUAL_MM
from pycore.layout.plan import RowsAndColumns, rows_and_columns
from pycore.layout.sheet import Axis
from pycore.plan.options import Stock
from pycore.plan.packing import Placed
from pycore.plan.pieces import Piece, longest_mm, stock_axes


@dataclass(frozen=True, kw_only=True)
class Filled:
    """One sheet, or one length of a roll, with what lies on it.

    Attributes
    ----------
    stock : Stock
    length_mm : float
        The sheet's height, or what is cut from the roll.
    placed : tuple of Placed
    """

    stock: Stock
    length_mm: float
    placed: tuple[Placed, ...]

    @property
    def area_mm2(self) -> float:
        """Of the sheet."""
        return self.stock.width_mm * self.length_mm


def size_key(piece: Piece) -> tuple[object, ...]:
    """What equal canvases have in common.

    Parameters
    ----------
    piece : Piece

    Returns
    -------
    tuple
    """
    return piece.width_mm, piece.height_mm, piece.dry_mm, piece.ways


def in_rows(pieces: Sequence[Piece], stock: Stock, *, gap_mm: float) -> list[Filled] | None:
    """Lay equal canvases in rows and columns, the better way round; unequal ones share no sheet.

    Parameters
    ----------
    pieces : sequence of Piece
        Equal ones beside one another.
    stock : Stock
    gap_mm : float
        Between neighbours.

    Returns
    -------
    list of Filled or None
        None where a canvas does not fit.
    """
    sheets: list[Filled] = []
    for _, alike in groupby(pieces, key=size_key):
        equal = list(alike)
        laid = [list(_laid(equal, stock, turned=way, gap_mm=gap_mm)) for way in equal[0].ways]
        found = [one for one in laid if one]
        if not found:
            return None
        best = min(found, key=_area_mm2)
        sheets += best
    return sheets


def _area_mm2(sheets: list[Filled]) -> float:
    return sum(one.area_mm2 for one in sheets)


def _laid(equal: list[Piece], stock: Stock, *, turned: bool, gap_mm: float) -> Iterator[Filled]:
    across, along = stock_axes(stock, equal[0], turned=turned)
    most = replace(along, sheet_mm=longest_mm(stock))
    full = _rows(across, most, along, len(equal), gap_mm)
    if full is None:
        return
    held = full.columns * full.rows
    for first in range(0, len(equal), held):
        here = equal[first : first + held]
        last = _rows(across, most, along, len(here), gap_mm) or full
        yield Filled(
            stock=stock,
            length_mm=last.length_mm,
            placed=tuple(_places(here, across, along, last.columns, turned=turned, gap_mm=gap_mm)),
        )


def _rows(across: Axis, most: Axis, along: Axis, count: int, gap_mm: float) -> RowsAndColumns | None:
    """Like `rows_and_columns`, with a bound on what is cut from a roll at once."""
    found = rows_and_columns(across, along, count=count, gap_mm=gap_mm)
    if found is None or found.length_mm <= (most.sheet_mm or 0) + EQUAL_MM:
        return found
    full = rows_and_columns(across, most, count=count, gap_mm=gap_mm)
    if full is None:
        return None
    return rows_and_columns(across, along, count=full.columns * full.rows, gap_mm=gap_mm)


def _places(
    here: list[Piece], across: Axis, along: Axis, columns: int, *, turned: bool, gap_mm: float
) -> Iterator[Placed]:
    left, top = across.first_mm, along.first_mm
    for number, piece in enumerate(here):
        yield Placed(
            piece=piece,
            x_mm=left + number % columns * (across.canvas_mm + gap_mm),
            y_mm=top + math.floor(number / columns) * (along.canvas_mm + gap_mm),
            turned=turned,
        )
