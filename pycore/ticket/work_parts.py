"""The ticket's parts about the work after the print: folding, stretching, hanging, cautions, signatures."""

from __future__ import annotations

from typing import Final

from pycore.bars.frame import frame_of
from pycore.bars.report import BarsReport
from pycore.contract.job import Job
from pycore.fold.spec import FoldSpec
from pycore.speech import say
from pycore.ticket import work_words
from pycore.ticket.back_drawing import back_drawing
from pycore.ticket.fold_drawing import Drawing, draw_flat_corner, draw_in, folded_drawing, stage_drawing
from pycore.ticket.fold_words import cut_words, fold_rows, fold_steps
from pycore.ticket.paper import SOFT, TicketPages
from pycore.ticket.pieces import (
    GUTTER_MM,
    SMALL_PT,
    TEXT_PT,
    Draw,
    Piece,
    beside,
    blank,
    minor,
    paragraph,
    part,
    stacked,
    table,
    ticks,
    writing_line,
)

#: Drawings of the fold beside one another, and between two of them, mm.
_FOLD_COLUMNS: Final = 5
_CELL_GAP_MM: Final = 3.0
#: Below a drawing, for a word; a stage's number is narrow, and stands beside it.
_WORD_MM: Final = 4.0


def fold_part(job: Job, spec: FoldSpec, width: float, *, drawn_share: float) -> Piece:
    """A drawing for each step, the numbers beside the last ones, and the steps to tick.

    Parameters
    ----------
    job : Job
    spec : FoldSpec
    width : float
        mm.
    drawn_share : float
        Height of a drawing for its width.

    Returns
    -------
    Piece
    """
    steps = fold_steps(spec)
    cell = (width - (_FOLD_COLUMNS - 1) * _CELL_GAP_MM) / _FOLD_COLUMNS
    high = cell * drawn_share
    drawings = [
        _cell(
            say("flat"),
            lambda pages, x, y: draw_flat_corner(pages, spec, x, y + 1, min(high - 2, cell - 10)),
            high,
        )
    ]
    for number, (stage, _) in enumerate(steps, start=1):
        drawings.append(_drawn_cell(str(number), stage_drawing(job, spec, stage), cell, high))
    drawings.append(_drawn_cell(say("front"), folded_drawing(job, spec), cell, high, below_mm=_WORD_MM))
    if len(drawings) < _FOLD_COLUMNS + 3:
        back = folded_drawing(job, spec, back=True)
        drawings.append(_drawn_cell(say("back"), back, cell, high, below_mm=_WORD_MM))
    pitch = cell + _CELL_GAP_MM
    first, rest = drawings[:_FOLD_COLUMNS], drawings[_FOLD_COLUMNS:]
    room = width - len(rest) * pitch
    facts = fold_rows(job, spec)
    last = [(one, pitch) for one in rest] + [(table(facts, (room * 0.38, room * 0.62)), room)]
    # The stages have their numbers on the page too.
    said = [cut_words(job, spec), *(f"{number}. {text}" for number, (_, text) in enumerate(steps, start=1))]
    return part(
        say("Fold"),
        stacked(
            [
                beside([(one, pitch) for one in first]),
                beside(last),
                ticks(said, width),
            ],
            gap=2.0,
        ),
        width,
        aside=say("lengths on the bars; the canvas lies face down"),
    )


def _drawn_cell(label: str, drawing: Drawing, wide: float, high: float, *, below_mm: float = 1.0) -> Piece:
    size = (wide - 2, high - 1 - below_mm)
    return _cell(label, lambda pages, x, y: draw_in(pages, drawing, x + 2, y + 1, *size), high)


def _cell(label: str, draw: Draw, high: float) -> Piece:
    """A drawing with its number, or what it shows, at its lower left."""

    def both(pages: TicketPages, x: float, y: float) -> None:
        draw(pages, x, y)
        pages.text(x, y + high - 0.6, label, size_pt=TEXT_PT, colour=SOFT)

    return Piece(height_mm=high, draw=both)


def square_part(job: Job, bars: BarsReport, width: float) -> Piece:
    """Squaring the bars, and ruling the canvas for them.

    Parameters
    ----------
    job : Job
    bars : BarsReport
    width : float
        mm.

    Returns
    -------
    Piece
    """
    return part(say("Square the bars"), ticks(work_words.square_steps(job, bars), width), width)


def bars_part(job: Job, bars: BarsReport, width: float) -> Piece:
    """Stretching and hanging, with a drawing from the back.

    Parameters
    ----------
    job : Job
    bars : BarsReport
    width : float
        mm.

    Returns
    -------
    Piece
    """
    column = (width - GUTTER_MM) * 0.36
    rest = width - column - GUTTER_MM
    said = stacked(
        [
            minor(say("Stretch and staple"), rest),
            ticks(work_words.staple_steps(job, bars), rest),
            minor(say("Hang it"), rest),
            ticks(work_words.hang_steps(bars), rest),
        ],
        gap=1.2,
    )
    drawing = back_drawing(job, frame_of(job), bars.hanging, width_mm=column, most_mm=60.0)
    key = paragraph(
        say("From the back. Numbers: the order of the staples. Squares: rings; triangle: hook.")
        if bars.staples
        else say("From the back. Squares: rings; triangle: hook."),
        column,
        size_pt=SMALL_PT,
        colour=SOFT,
    )
    left = stacked([blank(2), drawing, key])
    return part(say("Stretch and hang"), beside([(left, column + GUTTER_MM), (said, rest)]), width)


def caution_part(width: float) -> Piece:
    """What can hurt someone, and what comes before all of this.

    Parameters
    ----------
    width : float
        mm.

    Returns
    -------
    Piece
    """
    column = (width - GUTTER_MM) / 2
    said = [
        stacked([minor(say(about), column), paragraph(say(text), column)], gap=0.2)
        for about, text in work_words.CAUTIONS
    ]
    rows = [
        beside([(one, column + GUTTER_MM) for one in said[start : start + 2]])
        for start in range(0, len(said), 2)
    ]
    first = paragraph(say(work_words.FIRST), width, bold=True)
    return part(say("Take care"), stacked([*rows, first], gap=1.0), width)


def signing_part(width: float) -> Piece:
    """Lines for those who made and checked the piece.

    Parameters
    ----------
    width : float
        mm.

    Returns
    -------
    Piece
    """
    third = (width - 2 * GUTTER_MM) / 3
    labels = (say("Made by"), say("Checked by"), say("Date and signature"))
    return beside([(writing_line(label, third), third + GUTTER_MM) for label in labels])
