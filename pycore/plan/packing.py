"""Pieces into free rectangles by rectpack's guillotine algorithms, on whole micrometres.

rectpack works exactly with integers only, so every piece is rounded up and every free rectangle down to a
micrometre. A gap between neighbours is had by making each piece, and each rectangle, wider by it.

References
----------
J. Jylänki, "A Thousand Ways to Pack the Bin", 2010: sections, their choice and their split.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Final, Protocol

import rectpack.guillotine as algorithms

from pycore.conventions import EQUAL_MM
from pycore.plan.cuts import Area
from pycore.plan.pieces import Piece


@dataclass(frozen=True, kw_only=True)
class Placed:
    """One piece on a sheet.

    Attributes
    ----------
    piece : Piece
    x_mm, y_mm : float
        Its upper-left corner, from the sheet's.
    turned, pinned : bool
    """

    piece: Piece
    x_mm: float
    y_mm: float
    turned: bool
    pinned: bool = False

    @property
    def area(self) -> Area:
        """What it covers."""
        wide, high = self.piece.size_mm(turned=self.turned)
        return Area(
            left_mm=self.x_mm, top_mm=self.y_mm, right_mm=self.x_mm + wide, bottom_mm=self.y_mm + high
        )


class Order(Enum):
    """Which piece is laid first."""

    AREA = "area"
    LONGER_SIDE = "longer side"
    SHORTER_SIDE = "shorter side"
    PERIMETER = "perimeter"

    def sorted(self, pieces: Sequence[Piece]) -> list[Piece]:
        """The pieces, the greatest first; equal ones keep their order.

        Parameters
        ----------
        pieces : sequence of Piece

        Returns
        -------
        list of Piece
        """
        return sorted(pieces, key=self._key, reverse=True)

    def _key(self, piece: Piece) -> tuple[float, float]:
        shorter, longer = sorted((piece.width_mm, piece.height_mm))
        return {
            Order.AREA: (shorter * longer, longer),
            Order.LONGER_SIDE: (longer, shorter),
            Order.SHORTER_SIDE: (shorter, longer),
            Order.PERIMETER: (shorter + longer, longer),
        }[self]


class _Rectangle(Protocol):
    x: int
    y: int
    width: int


class _Algorithm(Protocol):
    rot: bool

    def add_rect(self, width: int, height: int) -> _Rectangle | None: ...

    def fitness(self, width: int, height: int) -> int | None: ...


class _Kind(Protocol):
    def __call__(self, width: int, height: int, rot: bool) -> _Algorithm: ...


@dataclass(frozen=True, kw_only=True)
class Rule:
    """A way to pack: rectpack's algorithm, and the order of the pieces.

    Attributes
    ----------
    kind : class
        One of rectpack's guillotine algorithms.
    order : Order
    """

    kind: _Kind
    order: Order


#: How a section is chosen (best area, best short side, best long side fits), and how it is split (by the
#: shorter or longer leftover, by areas, by the section's own axes): the best ones on made-up sets come first.
_KINDS: Final[tuple[_Kind, ...]] = tuple(
    getattr(algorithms, f"Guillotine{choice}{split}")
    for split in ("Minas", "Slas", "Sas", "Maxas", "Llas", "Las")
    for choice in ("Baf", "Bssf", "Blsf")
)

#: Every rule: each algorithm in each order.
RULES: Final[tuple[Rule, ...]] = tuple(Rule(kind=kind, order=order) for kind in _KINDS for order in Order)


class Bin:
    """A free rectangle that is being filled.

    Parameters
    ----------
    area : Area
    kind : class
        One of rectpack's guillotine algorithms.
    gap_mm : float
        Between neighbours.
    """

    def __init__(self, area: Area, kind: _Kind, *, gap_mm: float) -> None:
        self._area, self._gap_mm = area, gap_mm
        self._size = _down(area.width_mm + gap_mm), _down(area.height_mm + gap_mm)
        self._packing = kind(*self._size, rot=True) if min(self._size) > 0 else None

    def fitness(self, piece: Piece) -> float | None:
        """How badly the piece fits; less is better.

        Parameters
        ----------
        piece : Piece

        Returns
        -------
        float or None
            None where it does not fit.
        """
        size = self._size_of(piece)
        if self._packing is None or not self._holds(piece, size):
            return None
        self._packing.rot = piece.may_turn
        return self._packing.fitness(*size)

    def add(self, piece: Piece) -> Placed | None:
        """Lay a piece.

        Parameters
        ----------
        piece : Piece

        Returns
        -------
        Placed or None
            None where it does not fit.
        """
        size = self._size_of(piece)
        if self._packing is None or not self._holds(piece, size):
            return None
        self._packing.rot = piece.may_turn
        laid = self._packing.add_rect(*size)
        if laid is None:
            return None
        return Placed(
            piece=piece,
            x_mm=self._area.left_mm + laid.x / 1000,
            y_mm=self._area.top_mm + laid.y / 1000,
            turned=piece.ways[0] != (laid.width != size[0]),
        )

    def _size_of(self, piece: Piece) -> tuple[int, int]:
        """As it lies the first of its ways."""
        width_mm, height_mm = piece.size_mm(turned=piece.ways[0])
        return _up(width_mm + self._gap_mm), _up(height_mm + self._gap_mm)

    def _holds(self, piece: Piece, size: tuple[int, int]) -> bool:
        wide, high = self._size
        return (size[0] <= wide and size[1] <= high) or (
            piece.may_turn and size[1] <= wide and size[0] <= high
        )


def pack(
    areas: Sequence[Area], pieces: Sequence[Piece], rule: Rule, *, gap_mm: float
) -> tuple[list[Placed], list[Piece]]:
    """Lay as many pieces as fit into free rectangles, each where it fits best.

    Parameters
    ----------
    areas : sequence of Area
        Free rectangles, none over another and no two nearer than the gap.
    pieces : sequence of Piece
    rule : Rule
    gap_mm : float
        Between neighbours.

    Returns
    -------
    tuple of list of Placed and list of Piece
        What is laid, and what does not fit.
    """
    bins = [Bin(area, rule.kind, gap_mm=gap_mm) for area in areas]
    laid: list[Placed] = []
    left: list[Piece] = []
    for piece in rule.order.sorted(pieces):
        placed = _best(bins, piece)
        if placed is None:
            left.append(piece)
        else:
            laid.append(placed)
    return laid, left


def _best(bins: list[Bin], piece: Piece) -> Placed | None:
    if len(bins) == 1:
        return bins[0].add(piece)
    found = [
        (fitness, number) for number, one in enumerate(bins) if (fitness := one.fitness(piece)) is not None
    ]
    return bins[min(found)[1]].add(piece) if found else None


def _up(length_mm: float) -> int:
    return math.ceil((length_mm - EQUAL_MM) * 1000)


def _down(length_mm: float) -> int:
    return math.floor((length_mm + EQUAL_MM) * 1000)
