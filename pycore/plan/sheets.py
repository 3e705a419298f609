"""Pieces on sheets of one size: as few sheets as the rules find, and what is left of them in one place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from pycore.plan.blank import Blank, free_areas
from pycore.plan.cuts import Area
from pycore.plan.packing import RULES, Bin, Order, Placed, Rule, pack
from pycore.plan.pieces import Piece
from pycore.plan.rows import Filled

#: Work that one plan may cost, in laid pieces: with more pieces, fewer rules are tried.
_WORK: Final = 12000


def fill_sheets(
    blank: Blank,
    pieces: Sequence[Piece],
    *,
    gap_mm: float,
    pinned: Mapping[int, Sequence[Placed]],
    usable_mm: float,
) -> list[Filled] | None:
    """Lay pieces on as few sheets as the rules find.

    Parameters
    ----------
    blank : Blank
    pieces : sequence of Piece
        Without the pinned ones.
    gap_mm : float
        Between neighbours.
    pinned : mapping of int to sequence of Placed
        By number of the sheet, from 1.
    usable_mm : float
        The usable length of each.

    Returns
    -------
    list of Filled or None
        None where some pieces find no place.
    """
    rules = RULES[: max(4, _WORK // max(1, len(pieces)))]
    found = [
        _first_fit(blank, pieces, rule, gap_mm=gap_mm, pinned=pinned, usable_mm=usable_mm) for rule in rules
    ]
    found.append(_one_by_one(blank, pieces, rules, gap_mm=gap_mm, pinned=pinned, usable_mm=usable_mm))
    laid = [one for one in found if one is not None]
    if not laid:
        return None
    best = min(laid, key=_rank)
    return [
        Filled(stock=blank.stock, length_mm=blank.length_mm(placed), placed=tuple(placed)) for placed in best
    ]


def _rank(sheets: list[list[Placed]]) -> tuple[int, float]:
    """Fewer sheets; then less of them taken, so that what is left is of one piece."""
    return len(sheets), sum(taken_mm2(placed) for placed in sheets)


def taken_mm2(placed: Sequence[Placed]) -> float:
    """The rectangle from the sheet's corner on that some pieces take.

    Parameters
    ----------
    placed : sequence of Placed
        At least one.

    Returns
    -------
    float
        Square mm.
    """
    areas = [one.area for one in placed]
    return max(one.right_mm for one in areas) * max(one.bottom_mm for one in areas)


def _bins(
    blank: Blank, pins: Sequence[Placed], rule: Rule, *, gap_mm: float, usable_mm: float
) -> list[Bin] | None:
    areas = free_areas(blank.area(usable_mm), [one.area for one in pins], gap_mm=gap_mm)
    return None if areas is None else [Bin(area, rule.kind, gap_mm=gap_mm) for area in areas]


def _first_fit(
    blank: Blank,
    pieces: Sequence[Piece],
    rule: Rule,
    *,
    gap_mm: float,
    pinned: Mapping[int, Sequence[Placed]],
    usable_mm: float,
) -> list[list[Placed]] | None:
    """Each piece on the first sheet that has room for it."""
    sheets: list[list[Placed]] = []
    open_bins: list[list[Bin]] = []
    for number in range(1, max(pinned, default=0) + 1):
        pins = list(pinned.get(number, ()))
        bins = _bins(blank, pins, rule, gap_mm=gap_mm, usable_mm=usable_mm)
        if bins is None:
            return None
        sheets.append(pins)
        open_bins.append(bins)
    for piece in rule.order.sorted(pieces):
        for placed, bins in zip(sheets, open_bins, strict=True):
            laid = next((one for free in bins if (one := free.add(piece)) is not None), None)
            if laid is not None:
                placed.append(laid)
                break
        else:
            bins = _bins(blank, (), rule, gap_mm=gap_mm, usable_mm=usable_mm) or []
            laid = bins[0].add(piece) if bins else None
            if laid is None:
                return None
            sheets.append([laid])
            open_bins.append(bins)
    return [placed for placed in sheets if placed]


def _one_by_one(
    blank: Blank,
    pieces: Sequence[Piece],
    rules: Sequence[Rule],
    *,
    gap_mm: float,
    pinned: Mapping[int, Sequence[Placed]],
    usable_mm: float,
) -> list[list[Placed]] | None:
    """Each sheet filled as well as any rule fills it, then the next."""
    left = list(pieces)
    sheets: list[list[Placed]] = []
    while left or len(sheets) < max(pinned, default=0):
        pins = list(pinned.get(len(sheets) + 1, ()))
        areas = free_areas(blank.area(usable_mm), [one.area for one in pins], gap_mm=gap_mm)
        if areas is None:
            return None
        placed, rest = best_fill(areas, left, rules, gap_mm=gap_mm)
        if not placed and not pins:
            return None
        sheets.append([*pins, *placed])
        left = rest
    return sheets


def best_fill(
    areas: Sequence[Area], pieces: Sequence[Piece], rules: Sequence[Rule], *, gap_mm: float
) -> tuple[list[Placed], list[Piece]]:
    """Fill one sheet with as much of some pieces as any rule does.

    Parameters
    ----------
    areas : sequence of Area
        Free rectangles of the sheet.
    pieces : sequence of Piece
    rules : sequence of Rule
        At least one.
    gap_mm : float

    Returns
    -------
    tuple of list of Placed and list of Piece
        What is laid, and what is left.
    """
    few = _candidates(areas, pieces)
    tries = [pack(areas, few, rule, gap_mm=gap_mm) for rule in rules]
    placed, _ = max(tries, key=lambda one: sum(laid.piece.area_mm2 for laid in one[0]))
    laid = {id(one.piece) for one in placed}
    return placed, [piece for piece in pieces if id(piece) not in laid]


def _candidates(areas: Sequence[Area], pieces: Sequence[Piece]) -> list[Piece]:
    """The greatest pieces, several times what the sheet holds: enough to choose from."""
    room_mm2 = 4 * sum(area.width_mm * area.height_mm for area in areas)
    few: list[Piece] = []
    for piece in Order.AREA.sorted(pieces):
        if room_mm2 < 0:
            break
        few.append(piece)
        room_mm2 -= piece.area_mm2
    return few
