"""The ticket made: its parts in the order of the work, laid on as few pages as hold them."""

from __future__ import annotations

import datetime
from collections.abc import Generator, Sequence
from dataclasses import dataclass
from typing import Final

from pycore.bars.frame import frame_of
from pycore.bars.report import BarsReport, bars_report
from pycore.client.markup import showable
from pycore.client.words import date_words
from pycore.colour.mapping.clip_report import ClipGroup, ClipReport
from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import fit_sheet
from pycore.picture.tones import U8
from pycore.printing.pdf.letters import lettered
from pycore.progress import Progress
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.speech import say
from pycore.ticket import words, work_words
from pycore.ticket.back_drawing import back_drawing
from pycore.ticket.fold_drawing import Drawing, draw_flat_corner, draw_in, folded_drawing, stage_drawing
from pycore.ticket.fold_words import cut_words, fold_rows, fold_steps
from pycore.ticket.lines import Lettered, shown_text, wrapped
from pycore.ticket.paper import FAINT, MARGIN_MM, SOFT, Rgb, TicketPages
from pycore.ticket.pieces import (
    SMALL_PT,
    TEXT_PT,
    Draw,
    Piece,
    beside,
    blank,
    heading,
    minor,
    paragraph,
    stacked,
    table,
    ticks,
    writing_line,
)
from pycore.ticket.report import TicketOptions
from pycore.ticket.sheet_drawing import sheet_drawing

#: Between two parts, and between two columns, mm.
_GAP_MM: Final = 3.2
_GUTTER_MM: Final = 6.0

#: So many groups of colours at most, the largest first.
_MOST_GROUPS: Final = 5

#: Drawings of the fold beside one another, and between two of them, mm.
_FOLD_COLUMNS: Final = 5
_CELL_GAP_MM: Final = 3.0


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
    pages = TicketPages(
        paper=options.paper,
        title=" ".join(showable(job.name).split()) or say("Ticket"),
        date=datetime.date.fromisoformat(options.date),
    )
    width = pages.width_mm - 2 * MARGIN_MM
    yield Progress(done=0.1, label=say("Setting the ticket"))
    first = [
        _head(name, client, date, width),
        _piece(job, face, bars, width),
        _printing(job, width),
        _colours(job, clip, profile, width),
        _part(say("Dry, coat, trim"), ticks(work_words.coat_steps(job), width), width),
    ]
    wherever = [_cautions(width), *_remarks(job, width)]
    yield Progress(done=0.3, label=say("Drawing the fold"))
    second = [_folding(job, spec, width), _bars(job, bars, width)]
    flow = _Flow(pages)
    flow.place_all(first)
    # What the first page has no room for stands before the signature.
    for one in wherever:
        if flow.holds(one):
            flow.place_all([one])
        else:
            second.append(one)
    flow.next_page()
    flow.place_all([*second, _signing(width)])
    yield Progress(done=0.7, label=say("Writing the ticket"))
    said = f"{date} \N{MIDDLE DOT} {name.text}" if name.text else date
    flow.number(wrapped(said, width * 0.7, SMALL_PT, most=1)[0])
    return MadeTicket(data=pages.data(), pages=pages.pages, notes=_notes(name, client))


class _Flow:
    """Places pieces one below the other and begins a page where the next one has no room."""

    def __init__(self, pages: TicketPages) -> None:
        self._pages = pages
        self.next_page()

    def next_page(self) -> None:
        self._pages.begin_page()
        self._y = MARGIN_MM - 2

    def holds(self, piece: Piece) -> bool:
        """Whether the rest of the page has room for a piece."""
        return self._y + piece.height_mm <= self._pages.height_mm - MARGIN_MM - 2

    def place_all(self, pieces: Sequence[Piece]) -> None:
        for one in pieces:
            if self._y > MARGIN_MM and not self.holds(one):
                self.next_page()
            one.draw(self._pages, MARGIN_MM, self._y)
            self._y += one.height_mm + _GAP_MM

    def number(self, text: str) -> None:
        """A line at the foot of every page, so that loose sheets find one another."""
        pages = self._pages
        foot, count = pages.height_mm - MARGIN_MM + 3, pages.pages
        for page in range(1, count + 1):
            pages.go_to(page)
            pages.text(MARGIN_MM, foot, text, size_pt=SMALL_PT, colour=SOFT)
            said = say("page {page} of {count}", page=page, count=count)
            pages.text(pages.width_mm - MARGIN_MM, foot, said, size_pt=SMALL_PT, colour=SOFT, align="right")


def _part(title: str, body: Piece, width: float, *, aside: str = "") -> Piece:
    return stacked([heading(title, width, aside=aside), body])


def _head(name: Lettered, client: Lettered, date: str, width: float) -> Piece:
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
                    say("Write here {of}: this ticket's font has no {lacks}.", of=of, lacks=one.lacks), width
                )
                if "letters" in one.lacks
                else writing_line(
                    say("Write here {of}: this ticket's font lacks {lacks} of it.", of=of, lacks=one.lacks),
                    width,
                )
            )
    return stacked(pieces, gap=0.6)


def _piece(job: Job, face: U8, bars: BarsReport, width: float) -> Piece:
    """The picture, and beside it sizes and weight."""
    column = (width - _GUTTER_MM) * 0.42
    rows, columns = face.shape[:2]
    scale = min(column / columns, 46 / rows)
    wide, high = columns * scale, rows * scale

    def draw(pages: TicketPages, x: float, y: float) -> None:
        pages.picture(face, x, y + 1, wide, high)
        pages.box(x, y + 1, wide, high, colour=FAINT, width=0.15)

    picture = Piece(height_mm=high + 1, draw=draw)
    rest = width - column - _GUTTER_MM
    rows_said = [*words.size_rows(job), *work_words.weight_rows(bars)]
    sizes = table(rows_said, (rest * 0.36, rest * 0.34, rest * 0.30))
    return beside([(picture, column + _GUTTER_MM), (sizes, rest)])


def _printing(job: Job, width: float) -> Piece:
    fit, plan = fit_sheet(job), plan_sheets(job) if job.group.panels > 1 else None
    column = (width - _GUTTER_MM) * 0.42
    rest = width - column - _GUTTER_MM
    said = stacked(
        [
            ticks(words.load_words(job, fit, plan)[:1], rest),
            stacked([paragraph(one, rest) for one in words.load_words(job, fit, plan)[1:]]),
            ticks(words.print_steps(job), rest),
        ],
        gap=1.6,
    )
    drawing = sheet_drawing(job, fit, plan, width_mm=column, most_mm=max(48.0, said.height_mm))
    return _part(say("Print"), beside([(drawing, column + _GUTTER_MM), (said, rest)]), width)


def _colours(job: Job, clip: ClipReport, profile: CanvasProfile, width: float) -> Piece:
    column = (width - _GUTTER_MM) * 0.52
    rest = width - column - _GUTTER_MM
    rows = words.colour_rows(job, profile, clip)
    facts = table(rows, (column * 0.24, column * 0.76), ruled=False)
    groups = [_group(one, rest) for one in clip.groups[:_MOST_GROUPS]]
    if not groups:
        groups = [paragraph(say("No group of colours lies outside the gamut."), rest, colour=SOFT)]
    else:
        said = say(
            "Worst groups: as filed, as printed; share; {delta_e} on average, at worst", delta_e=words.DELTA_E
        )
        groups.insert(0, paragraph(said, rest, size_pt=SMALL_PT, colour=SOFT))
    return _part(
        say("Colours"), beside([(facts, column + _GUTTER_MM), (stacked(groups, gap=0.9), rest)]), width
    )


def _group(group: ClipGroup, width: float) -> Piece:
    said = f"{group.name}: {group.share:.1%}, {group.mean_de:.1f}, {group.worst_de:.1f}"
    text = paragraph(said, width - 14)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        high = text.height_mm - 0.4
        pages.box(x, y + 0.2, 5.5, high, fill=_rgb(group.filed))
        pages.box(x + 6, y + 0.2, 5.5, high, fill=_rgb(group.printed))
        text.draw(pages, x + 14, y)

    return Piece(height_mm=text.height_mm, draw=draw)


def _rgb(text: str) -> Rgb:
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def _remarks(job: Job, width: float) -> list[Piece]:
    """The client's answer and the printmaker's remarks, where there are any."""
    parts = []
    for title, text in ((say("The client's answer"), job.answer), (say("Remarks"), job.notes)):
        lines = [line for line in (text or "").splitlines() if line.strip()]
        if not lines:
            continue
        pieces = [paragraph(lettered(line), width, most=4) for line in lines[:14]]
        lacks = shown_text(" ".join(lines)).lacks
        aside = (
            say("this ticket's font has no {lacks}: they are question marks", lacks=lacks) if lacks else ""
        )
        parts.append(_part(title, stacked(pieces), width, aside=aside))
    return parts


def _folding(job: Job, spec: FoldSpec, width: float) -> Piece:
    """A drawing for each step, the numbers beside the last ones, and the steps to tick."""
    steps = fold_steps(spec)
    cell = (width - (_FOLD_COLUMNS - 1) * _CELL_GAP_MM) / _FOLD_COLUMNS
    high = cell * 0.78
    drawings = [
        _cell(
            "1",
            lambda pages, x, y: draw_flat_corner(pages, spec, x, y + 1, min(high - 2, cell - 10)),
            high,
        )
    ]
    for number, (stage, _) in enumerate(steps, start=2):
        drawings.append(_drawn_cell(str(number), stage_drawing(job, spec, stage), cell, high))
    drawings.append(_drawn_cell("front", folded_drawing(job, spec), cell, high))
    if len(drawings) < _FOLD_COLUMNS + 3:
        drawings.append(_drawn_cell("back", folded_drawing(job, spec, back=True), cell, high))
    pitch = cell + _CELL_GAP_MM
    first, rest = drawings[:_FOLD_COLUMNS], drawings[_FOLD_COLUMNS:]
    room = width - len(rest) * pitch
    facts = fold_rows(job, spec)
    last = [(one, pitch) for one in rest] + [(table(facts, (room * 0.38, room * 0.62)), room)]
    said = [cut_words(spec), *(text for _, text in steps)]
    return _part(
        say("Fold"),
        stacked(
            [
                beside([(one, pitch) for one in first]),
                beside(last),
                ticks([f"{number}. {one}" for number, one in enumerate(said, start=1)], width),
            ],
            gap=2.0,
        ),
        width,
        aside=say("lengths on the bars; the canvas lies face down"),
    )


def _drawn_cell(label: str, drawing: Drawing, wide: float, high: float) -> Piece:
    return _cell(label, lambda pages, x, y: draw_in(pages, drawing, x + 2, y + 1, wide - 2, high - 2), high)


def _cell(label: str, draw: Draw, high: float) -> Piece:
    """A drawing with its number, or what it shows, at its lower left."""

    def both(pages: TicketPages, x: float, y: float) -> None:
        draw(pages, x, y)
        pages.text(x, y + high - 0.6, label, size_pt=TEXT_PT, colour=SOFT)

    return Piece(height_mm=high, draw=both)


def _bars(job: Job, bars: BarsReport, width: float) -> Piece:
    column = (width - _GUTTER_MM) * 0.36
    rest = width - column - _GUTTER_MM
    said = stacked(
        [
            minor(say("Square the bars"), rest),
            ticks(work_words.square_steps(job, bars), rest),
            minor(say("Stretch and staple"), rest),
            ticks(work_words.staple_steps(job, bars), rest),
            minor(say("Hang it"), rest),
            ticks(work_words.hang_steps(bars), rest),
        ],
        gap=1.2,
    )
    drawing = back_drawing(job, frame_of(job), bars.hanging, width_mm=column, most_mm=60.0)
    key = paragraph(
        say("From the back. Numbers: the order of the staples. Squares: rings; triangle: hook."),
        column,
        size_pt=SMALL_PT,
        colour=SOFT,
    )
    left = stacked([blank(2), drawing, key])
    return _part(say("Stretch and hang"), beside([(left, column + _GUTTER_MM), (said, rest)]), width)


def _cautions(width: float) -> Piece:
    """What can hurt someone, and what comes before all of this."""
    column = (width - _GUTTER_MM) / 2
    said = [
        stacked([minor(say(about), column), paragraph(say(text), column)], gap=0.2)
        for about, text in work_words.CAUTIONS
    ]
    rows = [
        beside([(one, column + _GUTTER_MM) for one in said[start : start + 2]])
        for start in range(0, len(said), 2)
    ]
    first = paragraph(say(work_words.FIRST), width, bold=True)
    return _part(say("Take care"), stacked([*rows, first], gap=1.0), width)


def _signing(width: float) -> Piece:
    third = (width - 2 * _GUTTER_MM) / 3
    labels = (say("Made by"), say("Checked by"), say("Date and signature"))
    return beside([(writing_line(label, third), third + _GUTTER_MM) for label in labels])


def _notes(name: Lettered, client: Lettered) -> list[Note]:
    return [
        Note(
            code="ticket-letters",
            severity=Severity.WATCH,
            place=Place.PICTURE,
            message=say("The ticket's font has no {lacks}, which {of} has.", lacks=one.lacks, of=of),
            remedy=say("Write it by hand on the line that the ticket keeps for it."),
            field=field,
        )
        for of, field, one in ((say("the name"), "name", name), (say("the client's name"), "client", client))
        if one.lacks
    ]
