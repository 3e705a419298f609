"""The ticket made: its parts in the order of the work, laid on as few pages as hold them."""

from __future__ import annotations

import datetime
from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

from pycore.bars.report import bars_report
from pycore.client.markup import showable
from pycore.client.words import date_words
from pycore.colour.mapping.clip_report import ClipReport
from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.fold.spec import fold_spec
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.speech import say
from pycore.ticket import work_words
from pycore.ticket.flow import CLOSE, USUAL, Flow, Spacing
from pycore.ticket.lines import Lettered, shown_text, wrapped
from pycore.ticket.paper import MARGIN_MM, TicketPages
from pycore.ticket.pieces import SMALL_PT, Piece, part, ticks
from pycore.ticket.print_parts import colour_part, head_part, piece_part, print_part, remark_parts
from pycore.ticket.report import PAPER_MM, Paper, TicketOptions
from pycore.ticket.work_parts import bars_part, caution_part, fold_part, signing_part, square_part

#: What a sheet of paper holds.
_PAGES: Final = 2


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class MadeTicket:
    """A ticket's bytes, how many pages it has, and what its letters lack of the user's texts."""

    data: bytes
    pages: int
    notes: list[Note]


def make_ticket(
    job: Job,
    *,
    face: U8,
    clip: ClipReport,
    profile: CanvasProfile,
    options: TicketOptions,
) -> Generator[Progress, None, MadeTicket]:
    """Make the ticket of a job.

    Parameters
    ----------
    job : Job
        A checked job.
    face : (rows, columns, 3) uint8
        A small picture of the face, of a group of all faces, srgb_encoded.
    clip : ClipReport
        What lies outside the gamut, after bringing in.
    profile : CanvasProfile
        The job's.
    options : TicketOptions

    Yields
    ------
    Progress

    Returns
    -------
    MadeTicket

    Raises
    ------
    FieldError
        The date is none.
    GeometryError
        The corners cannot be folded at these sizes.
    """
    date = date_words(options.date)
    spec, bars = fold_spec(job), bars_report(job)
    name, client = shown_text(job.name), shown_text(job.client)
    width = PAPER_MM[options.paper][0] - 2 * MARGIN_MM
    yield Progress(done=0.1, label=say("Setting the ticket"))
    first = [
        head_part(name, client, date, width),
        piece_part(job, face, bars, width),
        print_part(job, width),
        colour_part(job, clip, profile, width),
        part(say("Dry, coat, trim"), ticks(work_words.coat_steps(job), width), width),
    ]
    wherever = [caution_part(width), *remark_parts(job, width)]

    def laid(spacing: Spacing) -> Flow:
        second = [
            square_part(job, bars, width),
            fold_part(job, spec, width, drawn_share=spacing.drawn_share),
            bars_part(job, bars, width),
            signing_part(width),
        ]
        return _laid(first, wherever, second, paper=options.paper, gap_mm=spacing.gap_mm)

    flow = laid(USUAL)
    if flow.pages > _PAGES:
        flow = min(flow, laid(CLOSE), key=lambda one: one.pages)
    yield Progress(done=0.3, label=say("Drawing the fold"))
    said = f"{date} \N{MIDDLE DOT} {name.text}" if name.text else date
    pages = TicketPages(
        paper=options.paper,
        title=" ".join(showable(job.name).split()) or say("Ticket"),
        date=datetime.date.fromisoformat(options.date),
    )
    flow.draw(pages, wrapped(said, width * 0.7, SMALL_PT, most=1)[0])
    yield Progress(done=0.7, label=say("Writing the ticket"))
    return MadeTicket(data=pages.data(), pages=pages.pages, notes=_notes(name, client))


def _laid(
    first: list[Piece], wherever: list[Piece], second: list[Piece], *, paper: Paper, gap_mm: float
) -> Flow:
    """Place pieces on the first pages and on the second ones.

    Of those that may stand on either, what the first page has no room for stands before the last piece.
    """
    flow = Flow(PAPER_MM[paper][1], gap_mm=gap_mm)
    flow.place_all(first)
    late = []
    for one in wherever:
        if flow.holds(one):
            flow.place_all([one])
        else:
            late.append(one)
    flow.next_page()
    *before, last = second
    flow.place_all([*before, *late, last])
    return flow


def _notes(name: Lettered, client: Lettered) -> list[Note]:
    return [
        Note(
            code="ticket-letters",
            severity=Severity.WATCH,
            place=Place.PICTURE,
            message=say("The ticket's font lacks {lacks}, which {of} has.", lacks=one.lacks, of=of),
            remedy=say("Write it by hand on the line that the ticket keeps for it."),
            field=field,
        )
        for of, field, one in ((say("the name"), "name", name), (say("the client's name"), "client", client))
        if one.lacks
    ]
