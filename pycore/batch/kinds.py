"""What is made of each job, and of all jobs together: two plain tables.

A new kind of output is one more entry: what it is called, what is said of it, and what makes it.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from pycore.contract.job import Job
from pycore.contract.notes import Note, worst_first
from pycore.errors import TuckfoldError
from pycore.plan.options import PlanJob, PlanOptions
from pycore.printing.report import FILE_ENDINGS, FileKind
from pycore.progress import Progress
from pycore.speech import say
from pycore.ticket.report import Paper

if TYPE_CHECKING:
    from pycore.proofing.profile_store import ProfileStore
    from pycore.tasks.open_picture import OpenPicture

# A worker makes what is ordered, and imports what that needs: each kind its own.


@dataclass(frozen=True, kw_only=True)
class Choices:
    """What is chosen of the outputs of a batch.

    Attributes
    ----------
    print_kind : FileKind
    date : str
        Of today, YYYY-MM-DD, for the texts on what is made.
    paper : Paper
        Of the tickets.
    plan : PlanOptions
        Sheets, rolls, gaps and prices of the plan.
    """

    print_kind: FileKind = FileKind.TIFF
    date: str
    paper: Paper = Paper.A4
    plan: PlanOptions = field(default_factory=PlanOptions)


@dataclass(frozen=True, kw_only=True, eq=False)
class Bench:
    """What a maker has before it.

    Attributes
    ----------
    job : Job
    picture : OpenPicture
    profiles : ProfileStore
    name : str
        What the files' names begin with.
    folder : Path
        Where they are written.
    choices : Choices
    """

    job: Job
    picture: OpenPicture
    profiles: ProfileStore
    name: str
    folder: Path
    choices: Choices


@dataclass(frozen=True, kw_only=True)
class Made:
    """Files below the bench's folder, and what to say of them."""

    files: list[str]
    notes: list[Note] = field(default_factory=list)


Making = Generator[Progress, None, Made]


@dataclass(frozen=True, kw_only=True)
class PieceKind:
    """What is made of one job.

    Attributes
    ----------
    about : str
        For the command line's help.
    make : callable
        Takes a `Bench`, yields progress, returns `Made`.
    choice : callable
        What of the choices its files depend on, the date aside, as text for the record.
    """

    about: str
    make: Callable[[Bench], Making]
    choice: Callable[[Choices], str] = lambda _: ""


@dataclass(frozen=True, kw_only=True)
class WholeMade:
    """What was made of all jobs together: files by name, lines of text, and figures as data."""

    files: Mapping[str, bytes]
    lines: list[str]
    figures: dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class WholeKind:
    """What is made of all jobs together.

    Attributes
    ----------
    about : str
        For the command line's help.
    make : callable
        Takes the jobs with their names, and the choices; returns `WholeMade`.
    """

    about: str
    make: Callable[[Sequence[tuple[str, Job]], Choices], WholeMade]


def _print(bench: Bench) -> Making:
    from pycore.printing.file_names import panel_name
    from pycore.tasks.layout import printing_notes
    from pycore.tasks.print_file import print_files

    count, ending = bench.job.group.panels, FILE_ENDINGS[bench.choices.print_kind]
    names = {panel: f"{panel_name(bench.name, panel, count=count)}{ending}" for panel in range(1, count + 1)}
    written = yield from print_files(
        bench.job,
        bench.picture,
        bench.profiles,
        kind=bench.choices.print_kind,
        date=bench.choices.date,
        places={panel: bench.folder / name for panel, name in names.items()},
    )
    notes = [*printing_notes(bench.job, bench.picture), *(note for one in written for note in one.notes)]
    return Made(files=list(names.values()), notes=worst_first(notes))


def _client(bench: Bench) -> Making:
    from pycore.client.page import viewer_program
    from pycore.client.report import ClientOptions
    from pycore.compare.variants import Variant
    from pycore.printing.place import file_at
    from pycore.tasks.client_page import write_client_page

    name = f"{bench.name}-client.html"
    page = yield from write_client_page(
        [Variant(label="", job=bench.job)],
        bench.picture,
        bench.profiles,
        viewer=viewer_program(),
        options=ClientOptions(date=bench.choices.date),
        file=name,
    )
    with file_at(bench.folder / name, field="--out") as file:
        file.write(page.data)
    return Made(files=[name], notes=page.notes)


def _ticket(bench: Bench) -> Making:
    from pycore.printing.place import file_at
    from pycore.tasks.ticket import write_ticket
    from pycore.ticket.report import TicketOptions

    name = f"{bench.name}-ticket.pdf"
    ticket = yield from write_ticket(
        bench.job,
        bench.picture,
        bench.profiles,
        options=TicketOptions(paper=bench.choices.paper, date=bench.choices.date),
        file=name,
    )
    with file_at(bench.folder / name, field="--out") as file:
        file.write(ticket.data)
    return Made(files=[name], notes=ticket.notes)


def _plan(jobs: Sequence[tuple[str, Job]], choices: Choices) -> WholeMade:
    from pycore.contract.notes import note_line
    from pycore.plan.drawing import plan_svg
    from pycore.tasks.plan import plan_jobs

    wanted = [PlanJob(name=name, job=job) for name, job in jobs]
    left_out: list[str] = []
    try:
        plan = plan_jobs(wanted, options=choices.plan)
    except TuckfoldError:
        # One canvas that no sheet holds must not cost the others their plan.
        reasons = {one.name: _no_place(one, choices) for one in wanted}
        left_out = [reason for reason in reasons.values() if reason]
        fitting = [one for one in wanted if not reasons[one.name]]
        if not fitting:
            return WholeMade(files={}, lines=left_out, figures={})
        plan = plan_jobs(fitting, options=choices.plan)
    on = plan.figures
    rolls = (
        [say("{roll_length_mm:.0f} mm off rolls", roll_length_mm=on.roll_length_mm)]
        if on.roll_length_mm
        else []
    )
    cost = [] if on.cost is None else [say("cost {cost:.2f}", cost=on.cost)]
    parts = [
        _count(on.sheets, say("sheet or length"), say("sheets and lengths")),
        *rolls,
        say("waste {waste_share:.1%}", waste_share=on.waste_share),
        *cost,
    ]
    lines = [
        f"{_count(on.pieces, say('canvas'), say('canvases'))}: {', '.join(parts)}",
        *left_out,
        *(note_line(one) for one in plan.notes),
    ]
    files = {
        "plan.svg": plan_svg(plan).encode(),
        "plan.json": plan.model_dump_json(exclude_none=True).encode(),
    }
    return WholeMade(files=files, lines=lines, figures=on.model_dump(mode="json", exclude_none=True))


def _count(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"


def _no_place(job: PlanJob, choices: Choices) -> str:
    """Why a job cannot be planned even alone; empty where it can."""
    from pycore.tasks.plan import plan_jobs

    try:
        plan_jobs([job], options=choices.plan.model_copy(update={"pins": ()}))
    except TuckfoldError as wrong:
        return say("Not planned: {job}. {split}", job=job.name, split=" ".join(str(wrong).split()))
    return ""


def _bars(jobs: Sequence[tuple[str, Job]], _: Choices) -> WholeMade:
    from pycore.batch.shopping import shopping_list

    found = shopping_list(jobs)
    return WholeMade(
        files={"bars.csv": found.csv_bytes()}, lines=found.lines(), figures=found.model_dump(mode="json")
    )


PIECE_KINDS: Final[Mapping[str, PieceKind]] = MappingProxyType(
    {
        "print": PieceKind(
            about=say("the print file, of a group one for each panel"),
            make=_print,
            choice=lambda choices: choices.print_kind.value,
        ),
        "client": PieceKind(about=say("the client's page"), make=_client),
        "ticket": PieceKind(
            about=say("the ticket that goes with the piece"),
            make=_ticket,
            choice=lambda choices: choices.paper.value,
        ),
    }
)

WHOLE_KINDS: Final[Mapping[str, WholeKind]] = MappingProxyType(
    {
        "plan": WholeKind(about=say("all canvases on sheets and rolls"), make=_plan),
        "bars": WholeKind(about=say("the shopping list of bars"), make=_bars),
    }
)
