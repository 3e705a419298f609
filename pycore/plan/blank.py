"""What of a sheet or roll a set of pieces may lie on, and what is left of it round pinned pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pycore.conventions import EQUAL_MM
from pycore.plan.cuts import Area
from pycore.plan.options import Stock
from pycore.plan.packing import Placed
from pycore.plan.pieces import Piece, longest_mm
from pycore.plan.result import CutWay


@dataclass(frozen=True, kw_only=True)
class Blank:
    """A sheet or roll within the margins that one set of pieces must keep.

    Attributes
    ----------
    stock : Stock
    inset_mm : tuple of float
        Top, right, bottom, left: each margin less the narrowest dry strip of the pieces.
    """

    stock: Stock
    inset_mm: tuple[float, float, float, float]

    @property
    def most_mm(self) -> float:
        """The usable length at most."""
        return longest_mm(self.stock) - self.inset_mm[0] - self.inset_mm[2]

    @property
    def width_mm(self) -> float:
        """The usable width."""
        return self.stock.width_mm - self.inset_mm[1] - self.inset_mm[3]

    def area(self, usable_mm: float) -> Area:
        """The usable part of a sheet.

        Parameters
        ----------
        usable_mm : float
            Its length.

        Returns
        -------
        Area
        """
        top, _, _, left = self.inset_mm
        return Area(left_mm=left, top_mm=top, right_mm=left + self.width_mm, bottom_mm=top + usable_mm)

    def length_mm(self, placed: Sequence[Placed]) -> float:
        """The sheet's height, or what is cut from the roll for some pieces.

        Parameters
        ----------
        placed : sequence of Placed

        Returns
        -------
        float
        """
        if self.stock.height_mm is not None:
            return self.stock.height_mm
        return max(_end(one, self.stock.margin_mm[2]) for one in placed)

    def takes(self, piece: Piece) -> bool:
        """Whether a piece fits, in a way that it may lie.

        Parameters
        ----------
        piece : Piece

        Returns
        -------
        bool
        """
        sizes = [piece.size_mm(turned=way) for way in piece.ways]
        return any(
            wide <= self.width_mm + EQUAL_MM and high <= self.most_mm + EQUAL_MM for wide, high in sizes
        )


def blank_of(stock: Stock, pieces: Sequence[Piece]) -> Blank:
    """The part of a sheet on which every one of some pieces may lie anywhere.

    Ink must keep clear of the unprintable margins; the dry strip round it need not.

    Parameters
    ----------
    stock : Stock
    pieces : sequence of Piece
        At least one.

    Returns
    -------
    Blank
    """
    # A piece that may turn has the same dry strip both ways: its canvas gives as much across as down. One
    # that must lie turned has what is above and below it as it hangs to its left and right here.
    dry_mm = [piece.lying_dry_mm(turned=way) for piece in pieces for way in piece.ways]
    across, down = (min(one[axis] for one in dry_mm) for axis in (0, 1))
    top, right, bottom, left = stock.margin_mm
    return Blank(
        stock=stock,
        inset_mm=(
            max(0.0, top - down),
            max(0.0, right - across),
            max(0.0, bottom - down),
            max(0.0, left - across),
        ),
    )


def blanks_of(stock: Stock, pieces: Sequence[Piece]) -> list[tuple[Blank, list[Piece]]]:
    """Sets of pieces that can share sheets, each with its blank.

    A piece that needs its own wide dry strip to fit does not share: the strips of others are too narrow.

    Parameters
    ----------
    stock : Stock
    pieces : sequence of Piece
        Each of which fits by itself.

    Returns
    -------
    list of (Blank, list of Piece)
    """
    left, sets = list(pieces), []
    while left:
        blank = blank_of(stock, left)
        inside = [piece for piece in left if blank.takes(piece)]
        if len(inside) == len(left):
            sets.append((blank, left))
            break
        # The blank of those that fit is no smaller, so they fit it too.
        if inside:
            sets.append((blank_of(stock, inside), inside))
            left = [piece for piece in left if not blank.takes(piece)]
        else:
            job = left[0].job
            sets.append(_of_job(stock, left, job))
            left = [piece for piece in left if piece.job != job]
    return sets


def free_areas(area: Area, pinned: Sequence[Area], *, gap_mm: float) -> list[Area] | None:
    """What is free round pinned pieces, in rectangles that cuts from edge to edge can part.

    Parameters
    ----------
    area : Area
        The usable part of the sheet.
    pinned : sequence of Area
    gap_mm : float
        Between neighbours.

    Returns
    -------
    list of Area or None
        None where no cut from edge to edge parts the pinned pieces.
    """
    if not pinned:
        return [area] if area.width_mm > 0 and area.height_mm > 0 else []
    if len(pinned) == 1:
        return _round_one(area, pinned[0], gap_mm)
    for way in (CutWay.ACROSS, CutWay.DOWN):
        spans = sorted(one.span(way) for one in pinned)
        end_mm = spans[0][1]
        for start_mm, next_end_mm in spans[1:]:
            if start_mm - end_mm >= gap_mm - EQUAL_MM:
                return _parted(area, pinned, way, end_mm, start_mm, gap_mm)
            end_mm = max(end_mm, next_end_mm)
    return None


def _parted(
    area: Area, pinned: Sequence[Area], way: CutWay, end_mm: float, start_mm: float, gap_mm: float
) -> list[Area] | None:
    first, last = area.span(way)
    halves = (
        (
            area.within(way, first, min(start_mm - gap_mm, last)),
            [p for p in pinned if p.span(way)[1] <= end_mm],
        ),
        (area.within(way, max(start_mm, first), last), [p for p in pinned if p.span(way)[1] > end_mm]),
    )
    found = [free_areas(half, inside, gap_mm=gap_mm) for half, inside in halves]
    if any(one is None for one in found):
        return None
    return [one for half in found if half for one in half]


def _round_one(area: Area, pin: Area, gap_mm: float) -> list[Area]:
    """Above and below all the way and beside, or beside all the way and above and below: the larger one."""
    ways = []
    for whole, part in ((CutWay.ACROSS, CutWay.DOWN), (CutWay.DOWN, CutWay.ACROSS)):
        # A pin with a wide dry strip may lie partly on the margin.
        (first, last), (low, high) = area.span(whole), pin.span(whole)
        band = area.within(whole, max(first, low), min(last, high))
        pieces = [*_beside(area, pin, whole, gap_mm), *_beside(band, pin, part, gap_mm)]
        ways.append([one for one in pieces if one.width_mm > 0 and one.height_mm > 0])
    return max(ways, key=lambda way: max((one.width_mm * one.height_mm for one in way), default=0.0))


def _beside(area: Area, pin: Area, way: CutWay, gap_mm: float) -> list[Area]:
    first, last = area.span(way)
    low, high = pin.span(way)
    return [area.within(way, first, low - gap_mm), area.within(way, high + gap_mm, last)]


def _of_job(stock: Stock, pieces: Sequence[Piece], job: str) -> tuple[Blank, list[Piece]]:
    own = [piece for piece in pieces if piece.job == job]
    return blank_of(stock, own), own


def _end(placed: Placed, margin_mm: float) -> float:
    _, dry_mm = placed.piece.lying_dry_mm(turned=placed.turned)
    return placed.area.bottom_mm + max(0.0, margin_mm - dry_mm)
