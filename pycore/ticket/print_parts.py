"""The ticket's parts about the piece and its print: names, sizes, loading, colours, remarks."""

from __future__ import annotations

from typing import Final

from pycore.bars.report import BarsReport
from pycore.colour.mapping.clip_report import ClipGroup, ClipReport
from pycore.contract.job import Job
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import fit_sheet
from pycore.picture.tones import U8
from pycore.printing.pdf.letters import lettered
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.speech import say
from pycore.ticket import words, work_words
from pycore.ticket.lines import Lettered, shown_text
from pycore.ticket.paper import FAINT, SOFT, Rgb, TicketPages
from pycore.ticket.pieces import (
    GUTTER_MM,
    SMALL_PT,
    Piece,
    beside,
    paragraph,
    part,
    stacked,
    table,
    ticks,
    writing_line,
)
from pycore.ticket.sheet_drawing import sheet_drawing

#: So many groups of colours at most, the largest first.
_MOST_GROUPS: Final = 5


def head_part(name: Lettered, client: Lettered, date: str, width: float) -> Piece:
    """Name, client and date, or lines to write them on.

    Parameters
    ----------
    name, client : Lettered
        As the letters hold them.
    date : str
        In words.
    width : float
        mm.

    Returns
    -------
    Piece
    """
    top = beside(
        [
            (paragraph(say("Ticket"), 60, colour=SOFT), width - 60),
            (paragraph(date, 60, colour=SOFT, align="right"), 60),
        ]
    )
    pieces = [top]
    if name.text:
        pieces.append(paragraph(name.text, width, size_pt=17, most=2))
    elif not name.lacks:
        pieces.append(paragraph(say("Untitled piece"), width, size_pt=17, colour=SOFT))
    if client.text:
        pieces.append(paragraph(say("for {client}", client=client.text), width, size_pt=10, most=2))
    for of, one in ((say("the name of the piece"), name), (say("the client's name"), client)):
        if one.lacks:
            pieces.append(
                writing_line(
                    say("Write here {of}: this ticket's font lacks {lacks}.", of=of, lacks=one.lacks), width
                )
            )
    return stacked(pieces, gap=0.6)


def piece_part(job: Job, face: U8, bars: BarsReport, width: float) -> Piece:
    """The picture, and beside it sizes and weight.

    Parameters
    ----------
    job : Job
    face : (rows, columns, 3) uint8
        srgb_encoded.
    bars : BarsReport
    width : float
        mm.

    Returns
    -------
    Piece
    """
    column = (width - GUTTER_MM) * 0.42
    rows, columns = face.shape[:2]
    scale = min(column / columns, 46 / rows)
    wide, high = columns * scale, rows * scale

    def draw(pages: TicketPages, x: float, y: float) -> None:
        pages.picture(face, x, y + 1, wide, high)
        pages.box(x, y + 1, wide, high, colour=FAINT, width=0.15)

    picture = Piece(height_mm=high + 1, draw=draw)
    rest = width - column - GUTTER_MM
    rows_said = [*words.size_rows(job), *work_words.weight_rows(bars)]
    sizes = table(rows_said, (rest * 0.36, rest * 0.34, rest * 0.30))
    return beside([(picture, column + GUTTER_MM), (sizes, rest)])


def print_part(job: Job, width: float) -> Piece:
    """How the sheet is loaded, and the steps of printing.

    Parameters
    ----------
    job : Job
    width : float
        mm.

    Returns
    -------
    Piece
    """
    fit, plan = fit_sheet(job), plan_sheets(job) if job.group.panels > 1 else None
    column = (width - GUTTER_MM) * 0.42
    rest = width - column - GUTTER_MM
    said = stacked(
        [
            ticks(words.load_words(job, fit, plan)[:1], rest),
            stacked([paragraph(one, rest) for one in words.load_words(job, fit, plan)[1:]]),
            ticks(words.print_steps(job), rest),
        ],
        gap=1.6,
    )
    drawing = sheet_drawing(job, fit, plan, width_mm=column, most_mm=max(48.0, said.height_mm))
    return part(say("Print"), beside([(drawing, column + GUTTER_MM), (said, rest)]), width)


def colour_part(job: Job, clip: ClipReport, profile: CanvasProfile, width: float) -> Piece:
    """Profile and intent, and the groups of colours that the canvas cannot hold.

    Parameters
    ----------
    job : Job
    clip : ClipReport
    profile : CanvasProfile
    width : float
        mm.

    Returns
    -------
    Piece
    """
    column = (width - GUTTER_MM) * 0.52
    rest = width - column - GUTTER_MM
    rows = words.colour_rows(job, profile, clip)
    facts = table(rows, (column * 0.24, column * 0.76), ruled=False)
    groups = [_group(one, rest) for one in clip.groups[:_MOST_GROUPS]]
    if not groups:
        groups = [paragraph(say("No group of colours lies outside the gamut."), rest, colour=SOFT)]
    else:
        said = say(
            "Worst groups: original, as printed; share; {delta_e} on average, at worst",
            delta_e=words.DELTA_E,
        )
        groups.insert(0, paragraph(said, rest, size_pt=SMALL_PT, colour=SOFT))
    return part(
        say("Colours"), beside([(facts, column + GUTTER_MM), (stacked(groups, gap=0.9), rest)]), width
    )


def _group(group: ClipGroup, width: float) -> Piece:
    said = words.group_words(group)
    text = paragraph(said, width - 14)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        high = text.height_mm - 0.4
        pages.box(x, y + 0.2, 5.5, high, fill=_rgb(group.filed))
        pages.box(x + 6, y + 0.2, 5.5, high, fill=_rgb(group.printed))
        text.draw(pages, x + 14, y)

    return Piece(height_mm=text.height_mm, draw=draw)


def _rgb(text: str) -> Rgb:
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def remark_parts(job: Job, width: float) -> list[Piece]:
    """The client's answer and the printmaker's remarks, where there are any.

    Parameters
    ----------
    job : Job
    width : float
        mm.

    Returns
    -------
    list of Piece
    """
    parts = []
    for title, text in ((say("The client's answer"), job.answer), (say("Remarks"), job.notes)):
        lines = [line for line in (text or "").splitlines() if line.strip()]
        if not lines:
            continue
        pieces = [paragraph(lettered(line), width, most=4) for line in lines[:14]]
        lacks = shown_text(" ".join(lines)).lacks
        aside = say("this ticket's font lacks {lacks}: they are question marks", lacks=lacks) if lacks else ""
        parts.append(part(title, stacked(pieces), width, aside=aside))
    return parts
