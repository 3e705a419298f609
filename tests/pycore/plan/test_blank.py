"""Which pieces can share sheets, by the dry strips that may lie on a margin."""

from __future__ import annotations

from pycore.plan.blank import blank_of, blanks_of
from pycore.plan.options import Stock
from pycore.plan.pieces import Piece

#: 430 x 430 mm, of which 390 x 390 can be printed.
_STOCK = Stock(width_mm=430, height_mm=430, margin_mm=(20, 20, 20, 20))


def _piece(
    name: str, size_mm: tuple[float, float], dry_mm: tuple[float, float], *, turned: bool = False
) -> Piece:
    return Piece(
        name=name,
        job=name[0],
        panel=1,
        copy_number=1,
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        dry_mm=dry_mm,
        ways=(turned,),
        gives_unequally=dry_mm[0] != dry_mm[1],
    )


def test_a_dry_strip_may_lie_on_the_margin_the_way_that_the_piece_lies() -> None:
    """Derived: strips of 18 and 15 mm leave 2 and 5 mm of a margin of 20; turned, 5 and 2."""
    assert blank_of(_STOCK, [_piece("a", (300, 200), (18, 15))]).inset_mm == (5, 2, 5, 2)
    assert blank_of(_STOCK, [_piece("a", (300, 200), (18, 15), turned=True)]).inset_mm == (2, 5, 2, 5)


def test_what_needs_its_own_strip_shares_with_nothing_narrower() -> None:
    """Derived: 425 mm fit between margins that leave 2 mm each, 426, and not between 5 mm each, 420."""
    wide, tall = _piece("a", (425, 300), (18, 15)), _piece("b", (300, 425), (15, 18))
    again, small = _piece("a2", (425, 300), (18, 15)), _piece("c", (100, 100), (15, 15))
    # Neither fits where both may lie: each job has sheets of its own.
    found = blanks_of(_STOCK, [wide, tall, again])
    assert [[piece.name for piece in own] for _, own in found] == [["a", "a2"], ["b"]]
    # The small one fits anywhere, so it goes first, and the wide one has its own.
    found = blanks_of(_STOCK, [wide, small])
    assert [[piece.name for piece in own] for _, own in found] == [["c"], ["a"]]
    for blank, own in found:
        assert all(blank.takes(piece) for piece in own)
