"""How little stock any plan could take: a lower bound to measure plans by."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pycore.conventions import EQUAL_MM
from pycore.plan.options import Stock
from pycore.plan.pieces import Piece, fits_alone, longest_mm, stock_axes


def least_area_mm2(pieces: Sequence[Piece], stocks: Sequence[Stock], *, gap_mm: float) -> float:
    """Stock below which no plan can go, whether or not it can be reached.

    By area: the pieces, each with a gap beside and below it, and nothing else; of sheets whole ones only. By
    size: no two pieces that are wider and higher than half a sheet share one, and a roll is no shorter than
    the piece that reaches farthest along it.

    Parameters
    ----------
    pieces : sequence of Piece
        Each fits on one of the stocks.
    stocks : sequence of Stock
    gap_mm : float
        Between neighbours.

    Returns
    -------
    float
        Square mm.
    """
    if len(stocks) > 1:
        # Of several stocks the pieces' own area holds without a look at any of them.
        return sum(piece.area_mm2 for piece in pieces)
    stock = stocks[0]
    needs = [_need(stock, piece) for piece in pieces]
    # The widest dry strip of all makes the usable part largest.
    across_mm = min(across for across, _ in needs)
    along_mm = min(along for _, along in needs)
    wide_mm = stock.width_mm - across_mm
    area_mm2 = sum((piece.width_mm + gap_mm) * (piece.height_mm + gap_mm) for piece in pieces)
    if stock.height_mm is None:
        by_area_mm = area_mm2 / (wide_mm + gap_mm) - gap_mm
        reach_mm = max(_reach(stock, piece) for piece in pieces)
        lengths = max(1, math.ceil(by_area_mm / longest_mm(stock) - EQUAL_MM))
        return max(by_area_mm + lengths * along_mm, reach_mm) * stock.width_mm
    high_mm = stock.height_mm - along_mm
    sheets = math.ceil(area_mm2 / ((wide_mm + gap_mm) * (high_mm + gap_mm)) - EQUAL_MM)
    alone = sum(_lies_alone(piece, wide_mm, high_mm) for piece in pieces)
    return max(1, sheets, alone) * stock.width_mm * stock.height_mm


def _need(stock: Stock, piece: Piece) -> tuple[float, float]:
    """What the margins take beside the piece, across and along."""
    ways = [stock_axes(stock, piece, turned=way) for way in piece.ways]
    return (
        min(across.need_mm - across.canvas_mm for across, _ in ways),
        min(along.need_mm - along.canvas_mm for _, along in ways),
    )


def _reach(stock: Stock, piece: Piece) -> float:
    return min(
        stock_axes(stock, piece, turned=way)[1].need_mm
        for way in piece.ways
        if fits_alone(stock, piece, turned=way)
    )


def _lies_alone(piece: Piece, wide_mm: float, high_mm: float) -> bool:
    sizes = [piece.size_mm(turned=way) for way in piece.ways]
    return all(2 * wide > wide_mm + EQUAL_MM and 2 * high > high_mm + EQUAL_MM for wide, high in sizes)
