"""`tuckfold batch`: many jobs to print files, client pages and the rest, on all cores or on a cluster."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from pathlib import Path

from pycore.batch.crew import Crew
from pycore.batch.inputs import read_pieces
from pycore.batch.kinds import PIECE_KINDS, WHOLE_KINDS, Choices
from pycore.batch.report import BatchReport
from pycore.batch.run import BatchOptions, run_batch
from pycore.batch.summary import summary_page, summary_text
from pycore.cli.options.day import day_from
from pycore.cli.options.job import add_preset_options, taker_from, words_from
from pycore.cli.options.plan import plan_options_tree
from pycore.cli.progress_line import run_shown
from pycore.cli.said import Said
from pycore.contract.job import Job
from pycore.errors import FieldError, shown
from pycore.plan.check import check_options
from pycore.plan.options import PlanOptions
from pycore.printing.place import file_at
from pycore.printing.report import FileKind
from pycore.speech import say
from pycore.ticket.report import Paper

#: Most jobs at once.
_MOST_WORKERS = 256

_ABOUT = {name: kind.about for kinds in (PIECE_KINDS, WHOLE_KINDS) for name, kind in kinds.items()}

DESCRIPTION = say(
    "Makes each job's files in a folder of its name. A job file's picture.file and "
    "colour.profile lie beside it. Run it again and only what is missing or changed is "
    "made. Exit status 3: some jobs were not done."
)


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "jobs",
        metavar="JOBS",
        nargs="+",
        type=Path,
        help=say(
            "job files, bundles (.zip), folders of both, or tables (.csv, .tsv): one row a piece, "
            "columns named as the fields of a job"
        ),
    )
    command.add_argument(
        "--out", metavar="FOLDER", required=True, type=Path, help=say("where everything goes")
    )
    command.add_argument(
        "--job", metavar="FILE", type=Path, help=say("the job that each row of a table begins from")
    )
    command.add_argument(
        "--set",
        metavar="FIELD=VALUE",
        action="append",
        default=[],
        dest="edits",
        help=say("change one field of every job; may be given several times"),
    )
    add_preset_options(command)
    about = "; ".join(f"{name}: {said}" for name, said in _ABOUT.items())
    command.add_argument("--make", metavar="KIND,KIND", help=say("only these of: {about}", about=about))
    command.add_argument(
        "--plan-only",
        action="store_true",
        help=say("make nothing of the single jobs: check, plan and list them"),
    )
    command.add_argument(
        "--format",
        choices=[one.value for one in FileKind],
        default=FileKind.TIFF.value,
        help=say("of the print files; tiff where nothing else is named"),
    )
    command.add_argument(
        "--paper",
        choices=[one.value for one in Paper],
        default=Paper.A4.value,
        help=say("of the tickets; a4 where nothing else is named"),
    )
    command.add_argument(
        "--plan-options",
        metavar="FILE",
        help=say("sheets, rolls, gaps and prices of the plan (JSON), as for plan"),
    )
    command.add_argument(
        "--workers",
        metavar="N",
        type=int,
        help=say("at most so many jobs at once; without it one for each core"),
    )
    command.add_argument(
        "--scheduler",
        metavar="ADDRESS",
        help=say("make them on a cluster: the address of its Dask scheduler"),
    )
    command.add_argument(
        "--files",
        choices=("sent", "shared"),
        default="sent",
        help=say(
            "on a cluster: send pictures and files through it, or use folders that all machines "
            "share; sent where nothing else is named"
        ),
    )
    command.add_argument(
        "--date", metavar="YYYY-MM-DD", help=say("the date on prints and pages; today without it")
    )
    command.add_argument("--json", action="store_true", help=say("print one JSON object"))


def run(options: argparse.Namespace) -> Said:
    """Run the command.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    Said
        What to print; status 3 where some jobs were not done.

    Raises
    ------
    FieldError
        An option or a table is wrong, or the cluster cannot be used.
    OutputError
        The folder cannot be written.
    """
    out: Path = options.out
    _check_place(options.jobs, out)
    kinds, whole_kinds = _kinds(options.make)
    chosen = BatchOptions(
        kinds=() if options.plan_only else kinds,
        whole_kinds=whole_kinds,
        choices=Choices(
            print_kind=FileKind(options.format),
            date=day_from(options.date),
            paper=Paper(options.paper),
            plan=_plan_options(options.plan_options),
        ),
    )
    crew = _crew(options)
    pieces = read_pieces(options.jobs, base=options.job, edits=options.edits, take=_taker(options))
    report = run_shown(run_batch(pieces, out, options=chosen, crew=crew))
    plain = json.dumps(report.model_dump(mode="json"), indent=1)
    text = summary_text(report)
    for name, content in (
        ("summary.json", f"{plain}\n"),
        ("summary.txt", f"{text}\n"),
        ("summary.html", summary_page(report)),
    ):
        with file_at(out / name, field="--out") as file:
            file.write(content.encode())
    return Said(text=plain if options.json else text, status=_status(report))


def _taker(options: argparse.Namespace) -> Callable[[Job], Job] | None:
    taker = taker_from(options)
    if taker is not None:
        # What no job can take is wrong once, not in each of them.
        taker(Job())
    return taker


def _status(report: BatchReport) -> int:
    return 3 if report.failed or any(one.error for one in report.whole) else 0


def _kinds(text: str | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    if text is None:
        return tuple(PIECE_KINDS), tuple(WHOLE_KINDS)
    asked = words_from(text)
    for one in asked:
        if one not in _ABOUT:
            raise FieldError(
                field="--make",
                expected=say("some of {about} with commas between them", about=", ".join(_ABOUT)),
                got=shown(one),
                remedy=say("correct the word"),
            )
    return tuple(one for one in PIECE_KINDS if one in asked), tuple(
        one for one in WHOLE_KINDS if one in asked
    )


def _crew(options: argparse.Namespace) -> Callable[[], Crew]:
    if options.workers is not None and not 1 <= options.workers <= _MOST_WORKERS:
        raise FieldError(
            field="--workers",
            expected=say("1 to {most}", most=_MOST_WORKERS),
            got=str(options.workers),
            remedy=say("give another number"),
        )
    if options.scheduler is not None:
        from pycore.batch.cluster_crew import cluster_crew

        return lambda: cluster_crew(
            options.scheduler, share=options.out if options.files == "shared" else None
        )

    def local() -> Crew:
        from pycore.batch.local_crew import LocalCrew
        from pycore.batch.memory import budget_bytes
        from pycore.workers import worker_count

        return LocalCrew(workers=options.workers or worker_count(), budget_bytes=budget_bytes())

    return local


def _check_place(jobs: list[Path], out: Path) -> None:
    for one in jobs:
        if one.is_dir() and one.resolve() == out.resolve():
            raise FieldError(
                field="--out",
                expected=say("another folder than that of the jobs"),
                got=repr(out.name),
                remedy=say("name a folder of its own, for example one inside it"),
            )


def _plan_options(name: str | None) -> PlanOptions:
    """The plan's options from a file, as `tuckfold plan` takes them."""
    return check_options({} if name is None else plan_options_tree(name, field="--plan-options"))
