"""Pieces one below the other, on as many pages as hold them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from pycore.speech import say
from pycore.ticket.paper import MARGIN_MM, SOFT, TicketPages
from pycore.ticket.pieces import SMALL_PT, Piece


class Spacing(NamedTuple):
    """How closely the pieces lie."""

    gap_mm: float
    """Between two parts."""
    drawn_share: float
    """Height of a drawing of the fold for its width."""


USUAL: Final = Spacing(gap_mm=2.4, drawn_share=0.78)
#: For long texts, which would need a third page.
CLOSE: Final = Spacing(gap_mm=1.6, drawn_share=0.68)


class Flow:
    """Places pieces one below the other and begins a page where the next one has no room.

    Parameters
    ----------
    high_mm : float
        Of a page.
    gap_mm : float
        Between two pieces.
    """

    def __init__(self, high_mm: float, *, gap_mm: float) -> None:
        self._high_mm, self._gap_mm = high_mm, gap_mm
        self._placed: list[list[tuple[float, Piece]]] = []
        self.next_page()

    @property
    def pages(self) -> int:
        """How many pages there are."""
        return len(self._placed)

    def next_page(self) -> None:
        """Begin a page."""
        self._placed.append([])
        self._y = MARGIN_MM - 2

    def holds(self, piece: Piece) -> bool:
        """Whether the rest of the page has room for a piece.

        Parameters
        ----------
        piece : Piece

        Returns
        -------
        bool
        """
        return self._y + piece.height_mm <= self._high_mm - MARGIN_MM - 2

    def place_all(self, pieces: Sequence[Piece]) -> None:
        """Place some pieces, each below the one before it.

        Parameters
        ----------
        pieces : sequence of Piece
        """
        for one in pieces:
            if self._y > MARGIN_MM and not self.holds(one):
                self.next_page()
            self._placed[-1].append((self._y, one))
            self._y += one.height_mm + self._gap_mm

    def draw(self, pages: TicketPages, text: str) -> None:
        """Draw what was placed, and a line at the foot of every page, so that loose sheets find one another.

        Parameters
        ----------
        pages : TicketPages
            Without a page yet.
        text : str
            At the left of the foot; the page's number stands at the right.
        """
        foot, count = pages.height_mm - MARGIN_MM + 2.5, self.pages
        for page, placed in enumerate(self._placed, start=1):
            pages.begin_page()
            for y, one in placed:
                one.draw(pages, MARGIN_MM, y)
            pages.text(MARGIN_MM, foot, text, size_pt=SMALL_PT, colour=SOFT)
            said = say("page {page} of {count}", page=page, count=count)
            pages.text(pages.width_mm - MARGIN_MM, foot, said, size_pt=SMALL_PT, colour=SOFT, align="right")
