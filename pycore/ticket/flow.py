"""Pieces one below the other, on as many pages as hold them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from pycore.speech import say
from pycore.ticket.paper import MARGIN_MM, SOFT, TicketPages
from pycore.ticket.pieces import SMALL_PT, Piece

#: Between two parts, mm.
_GAP_MM: Final = 2.4


class Flow:
    """Places pieces one below the other and begins a page where the next one has no room.

    Parameters
    ----------
    pages : TicketPages
        The first page is begun here.
    """

    def __init__(self, pages: TicketPages) -> None:
        self._pages = pages
        self.next_page()

    def next_page(self) -> None:
        """Begin a page."""
        self._pages.begin_page()
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
        return self._y + piece.height_mm <= self._pages.height_mm - MARGIN_MM - 2

    def place_all(self, pieces: Sequence[Piece]) -> None:
        """Place some pieces, each below the one before it.

        Parameters
        ----------
        pieces : sequence of Piece
        """
        for one in pieces:
            if self._y > MARGIN_MM and not self.holds(one):
                self.next_page()
            one.draw(self._pages, MARGIN_MM, self._y)
            self._y += one.height_mm + _GAP_MM

    def number(self, text: str) -> None:
        """Write a line at the foot of every page, so that loose sheets find one another.

        Parameters
        ----------
        text : str
            At the left; the page's number stands at the right.
        """
        pages = self._pages
        foot, count = pages.height_mm - MARGIN_MM + 2.5, pages.pages
        for page in range(1, count + 1):
            pages.go_to(page)
            pages.text(MARGIN_MM, foot, text, size_pt=SMALL_PT, colour=SOFT)
            said = say("page {page} of {count}", page=page, count=count)
            pages.text(pages.width_mm - MARGIN_MM, foot, said, size_pt=SMALL_PT, colour=SOFT, align="right")
