"""Pieces on a roll: as short a length as the rules find, or several lengths where there are many pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from pycore.plan.blank import Blank, free_areas
from pycore.plan.cuts import Area
from pycore.plan.packing import RULES, Placed, Rule, pack
from pycore.plan.pieces import Piece
from pycore.plan.rows import Filled
from pycore.plan.sheets import fill_sheets

#: So many pieces at most are laid on one length of a roll: more take long and save little.
_MOST_TOGETHER: Final = 40

#: A shorter length is looked for until it is known to so much.
_STEP_MM: Final = 1.0


def fill_roll(
    blank: Blank, pieces: Sequence[Piece], *, gap_mm: float, pinned: Mapping[int, Sequence[Placed]]
) -> list[Filled] | None:
    """Lay pieces on as little of a roll as the rules find.

    Parameters
    ----------
    blank : Blank
        Of a roll.
    pieces : sequence of Piece
        Without the pinned ones.
    gap_mm : float
        Between neighbours.
    pinned : mapping of int to sequence of Placed
        By number of the length, from 1.

    Returns
    -------
    list of Filled or None
        None where some pieces find no place.
    """
    if len(pieces) <= _MOST_TOGETHER and all(number == 1 for number in pinned):
        one = _shortest(blank, pieces, pinned.get(1, ()), gap_mm=gap_mm, rules=RULES)
        if one is not None:
            return [one]
    # Lengths of a given size are filled like sheets; then each is made as short as it may be.
    area_mm2 = sum(piece.area_mm2 for piece in pieces)
    whole_mm = 1.1 * area_mm2 / blank.width_mm
    tallest_mm = max((min(piece.width_mm, piece.height_mm) for piece in pieces), default=0.0)
    chunks = max(1, -(-len(pieces) // _MOST_TOGETHER))
    sheets = None
    for chunk_mm in (max(whole_mm / chunks, 2 * tallest_mm), blank.most_mm):
        usable_mm = min(max(chunk_mm, _lowest(pinned)), blank.most_mm)
        sheets = fill_sheets(blank, pieces, gap_mm=gap_mm, pinned=pinned, usable_mm=usable_mm)
        if sheets is not None:
            break
    if sheets is None:
        return None
    return [_shorter(blank, sheet, gap_mm=gap_mm) for sheet in sheets]


def _lowest(pinned: Mapping[int, Sequence[Placed]]) -> float:
    return max((one.area.bottom_mm for some in pinned.values() for one in some), default=0.0)


def _shorter(blank: Blank, sheet: Filled, *, gap_mm: float) -> Filled:
    pins = [one for one in sheet.placed if one.pinned]
    others = [one.piece for one in sheet.placed if not one.pinned]
    rules = RULES if len(others) <= _MOST_TOGETHER else RULES[:6]
    found = _shortest(blank, others, pins, gap_mm=gap_mm, rules=rules)
    return found if found is not None and found.length_mm < sheet.length_mm else sheet


def _shortest(
    blank: Blank,
    pieces: Sequence[Piece],
    pins: Sequence[Placed],
    *,
    gap_mm: float,
    rules: Sequence[Rule],
) -> Filled | None:
    """The shortest length that any rule finds; each is tried just below the best so far, then bisected."""
    pinned = [one.area for one in pins]
    low_mm = max(
        [_least_mm(blank, pieces, gap_mm=gap_mm), *(one.bottom_mm - blank.inset_mm[0] for one in pinned)]
    )
    low_mm = max(low_mm, _STEP_MM)
    best: list[Placed] | None = None
    best_mm = blank.most_mm
    for rule in rules:
        ceiling_mm = blank.most_mm if best is None else best_mm - _STEP_MM
        if ceiling_mm < low_mm:
            break
        found = _fit(blank, pieces, pinned, rule, usable_mm=min(ceiling_mm, 3 * low_mm), gap_mm=gap_mm)
        if found is None and best is None:
            found = _fit(blank, pieces, pinned, rule, usable_mm=ceiling_mm, gap_mm=gap_mm)
        floor_mm = low_mm
        while found is not None:
            best, best_mm = found, _used(blank, [*found, *pins])
            found = None
            while found is None and best_mm - floor_mm > _STEP_MM:
                middle_mm = (floor_mm + best_mm) / 2
                found = _fit(blank, pieces, pinned, rule, usable_mm=middle_mm, gap_mm=gap_mm)
                if found is None:
                    floor_mm = middle_mm
    if best is None:
        return None
    placed = (*pins, *best)
    return Filled(stock=blank.stock, length_mm=blank.length_mm(placed), placed=placed)


def _fit(
    blank: Blank,
    pieces: Sequence[Piece],
    pinned: Sequence[Area],
    rule: Rule,
    *,
    usable_mm: float,
    gap_mm: float,
) -> list[Placed] | None:
    areas = free_areas(blank.area(usable_mm), pinned, gap_mm=gap_mm)
    if areas is None:
        return None
    placed, left = pack(areas, pieces, rule, gap_mm=gap_mm)
    return None if left else placed


def _used(blank: Blank, placed: Sequence[Placed]) -> float:
    return max(one.area.bottom_mm for one in placed) - blank.inset_mm[0]


def _least_mm(blank: Blank, pieces: Sequence[Piece], *, gap_mm: float) -> float:
    """No shorter length holds them: by area, and by the piece that reaches farthest along."""
    area_mm2 = sum((piece.width_mm + gap_mm) * (piece.height_mm + gap_mm) for piece in pieces)
    return max([area_mm2 / (blank.width_mm + gap_mm) - gap_mm, *(_reach(blank, piece) for piece in pieces)])


def _reach(blank: Blank, piece: Piece) -> float:
    sizes = [piece.size_mm(turned=way) for way in piece.ways]
    return min((high for wide, high in sizes if wide <= blank.width_mm + 1e-6), default=0.0)
