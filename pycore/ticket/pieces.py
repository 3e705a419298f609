"""What a page is put together from: pieces that know their height, so that nothing runs over its end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from pycore.ticket.lines import MM_PER_POINT, wrapped
from pycore.ticket.paper import ACCENT, FAINT, INK, SOFT, Rgb, TicketPages

#: Sizes of letters, points, and how far apart lines stand in parts of them.
TEXT_PT: Final = 8.0
SMALL_PT: Final = 6.8
LEADING: Final = 1.34

#: A box to tick, and where the text beside it begins, mm.
_BOX_MM: Final = 3.0
_BESIDE_BOX_MM: Final = 5.2

#: Between two columns, mm.
GUTTER_MM: Final = 6.0
#: Room above a line that is written on by hand.
_WRITING_MM: Final = 8.0

#: Between the rows of a list and of a table, mm.
_ROW_GAP_MM: Final = 0.8

Draw = Callable[[TicketPages, float, float], None]


@dataclass(frozen=True, kw_only=True)
class Piece:
    """Something with a height that can be drawn.

    Attributes
    ----------
    height_mm : float
    draw : function
        Of the pages and the piece's upper-left corner, mm.
    """

    height_mm: float
    draw: Draw


def _leading_mm(size_pt: float) -> float:
    return size_pt * MM_PER_POINT * LEADING


def paragraph(
    text: str,
    width: float,
    *,
    size_pt: float = TEXT_PT,
    colour: Rgb = INK,
    bold: bool = False,
    most: int | None = None,
    align: str = "left",
) -> Piece:
    """A text in lines.

    Parameters
    ----------
    text : str
        As from `lettered`.
    width : float
        mm.
    size_pt : float
    colour : Rgb
    bold : bool
    most : int, optional
        So many lines at most.
    align : str
        left or right.

    Returns
    -------
    Piece
    """
    lines, step = wrapped(text, width, size_pt, most=most), _leading_mm(size_pt)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        for number, line in enumerate(lines):
            baseline = y + (number + 0.5) * step + 0.36 * size_pt * MM_PER_POINT
            at = x + width if align == "right" else x
            pages.text(at, baseline, line, size_pt=size_pt, colour=colour, bold=bold, align=align)

    return Piece(height_mm=len(lines) * step, draw=draw)


def ticks(steps: Sequence[str], width: float) -> Piece:
    """Steps of work, each with a box to tick.

    Parameters
    ----------
    steps : sequence of str
        As from `lettered`.
    width : float
        mm.

    Returns
    -------
    Piece
    """
    return stacked([_ticked(step, width) for step in steps], gap=_ROW_GAP_MM)


def _ticked(step: str, width: float) -> Piece:
    said = paragraph(step, width - _BESIDE_BOX_MM)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        pages.box(x, y + (_leading_mm(TEXT_PT) - _BOX_MM) / 2, _BOX_MM, _BOX_MM, colour=INK, width=0.25)
        said.draw(pages, x + _BESIDE_BOX_MM, y)

    return Piece(height_mm=said.height_mm, draw=draw)


def table(rows: Sequence[Sequence[str]], widths: Sequence[float], *, ruled: bool = True) -> Piece:
    """Rows of a few columns; the first is soft, a fine line stands between the rows.

    Parameters
    ----------
    rows : sequence of sequences of str
    widths : sequence of float
        Of each column, mm.
    ruled : bool

    Returns
    -------
    Piece
    """
    return stacked([_row(row, widths, ruled=ruled) for row in rows])


def _row(row: Sequence[str], widths: Sequence[float], *, ruled: bool) -> Piece:
    cells = [
        paragraph(said, wide - 2, colour=SOFT if place == 0 else INK)
        for place, (said, wide) in enumerate(zip(row, widths, strict=True))
    ]
    body = beside(list(zip(cells, widths, strict=True)))
    height = body.height_mm + _ROW_GAP_MM

    def draw(pages: TicketPages, x: float, y: float) -> None:
        body.draw(pages, x, y + _ROW_GAP_MM / 2)
        if ruled:
            pages.line([(x, y + height), (x + sum(widths), y + height)], colour=FAINT, width=0.12)

    return Piece(height_mm=height, draw=draw)


def heading(text: str, width: float, *, aside: str = "") -> Piece:
    """A part's heading: a rule over the whole width, the word, and a remark at its right.

    Parameters
    ----------
    text : str
    width : float
        mm.
    aside : str

    Returns
    -------
    Piece
    """
    height = 6.6

    def draw(pages: TicketPages, x: float, y: float) -> None:
        pages.line([(x, y), (x + width, y)], colour=INK, width=0.25)
        pages.text(x, y + 4.3, text, size_pt=9.5, colour=ACCENT, bold=True)
        pages.text(x + width, y + 4.3, aside, size_pt=SMALL_PT, colour=SOFT, align="right")

    return Piece(height_mm=height, draw=draw)


def part(title: str, body: Piece, width: float, *, aside: str = "") -> Piece:
    """A part of the ticket: its heading, and what stands below it.

    Parameters
    ----------
    title : str
    body : Piece
    width : float
        mm.
    aside : str
        A remark at the heading's right.

    Returns
    -------
    Piece
    """
    return stacked([heading(title, width, aside=aside), body])


def minor(text: str, width: float) -> Piece:
    """A small heading within a part.

    Parameters
    ----------
    text : str
    width : float
        mm.

    Returns
    -------
    Piece
    """
    return paragraph(text, width, bold=True)


def blank(height_mm: float) -> Piece:
    """Nothing, so high.

    Parameters
    ----------
    height_mm : float

    Returns
    -------
    Piece
    """
    return Piece(height_mm=height_mm, draw=lambda pages, x, y: None)


def writing_line(label: str, width: float) -> Piece:
    """A line to write on by hand, with what belongs there in small letters below it.

    Parameters
    ----------
    label : str
    width : float
        mm.

    Returns
    -------
    Piece
    """
    below = paragraph(label, width, size_pt=SMALL_PT, colour=SOFT)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        pages.line([(x, y + _WRITING_MM), (x + width, y + _WRITING_MM)], colour=INK, width=0.2)
        below.draw(pages, x, y + _WRITING_MM + 0.4)

    return Piece(height_mm=_WRITING_MM + 0.4 + below.height_mm, draw=draw)


def stacked(pieces: Sequence[Piece], *, gap: float = 0.0) -> Piece:
    """Pieces one below the other.

    Parameters
    ----------
    pieces : sequence of Piece
    gap : float
        Between two of them, mm.

    Returns
    -------
    Piece

    Examples
    --------
    >>> stacked([blank(3), blank(4)], gap=1).height_mm
    8.0
    """
    height = sum(one.height_mm for one in pieces) + gap * max(0, len(pieces) - 1)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        for one in pieces:
            one.draw(pages, x, y)
            y += one.height_mm + gap

    return Piece(height_mm=float(height), draw=draw)


def beside(columns: Sequence[tuple[Piece, float]]) -> Piece:
    """Pieces beside one another, each with the width that it takes.

    Parameters
    ----------
    columns : sequence of (Piece, float)
        Width in mm.

    Returns
    -------
    Piece
        As high as the highest of them.

    Examples
    --------
    >>> beside([(blank(3), 20), (blank(4), 30)]).height_mm
    4
    """

    def draw(pages: TicketPages, x: float, y: float) -> None:
        for one, wide in columns:
            one.draw(pages, x, y)
            x += wide

    return Piece(height_mm=max(one.height_mm for one, _ in columns), draw=draw)
