"""`tuckfold ticket`: the sheet of paper that goes with a piece from the print to the wall."""

from __future__ import annotations

import argparse
import json

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.day import day_from
from pycore.cli.options.job import add_job_options, blaming, job_from
from pycore.cli.options.out import out_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.contract.check import checked_options
from pycore.contract.notes import Note
from pycore.printing.place import check_place, file_at
from pycore.speech import say
from pycore.tasks.ticket import write_ticket
from pycore.ticket.report import Paper, TicketOptions, TicketReport


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)
    command.add_argument(
        "--out", metavar="FILE", required=True, help=say("the ticket; its name ends in .pdf")
    )
    command.add_argument(
        "--paper",
        choices=[one.value for one in Paper],
        default=Paper.A4.value,
        help=say("what it is printed on; a4 where nothing else is named"),
    )
    command.add_argument(
        "--client", metavar="NAME", help=say("for whom it is made; without it the job's client")
    )
    command.add_argument("--date", metavar="YYYY-MM-DD", help=say("the date on the ticket; today without it"))
    add_profile_option(command)


def run(options: argparse.Namespace) -> str:
    """Run the command.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    str
        What to print.

    Raises
    ------
    FieldError
        The name of the output file does not end in .pdf, or an option is wrong.
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    out = out_from(options, ".pdf", expected=say("a name that ends in .pdf"))
    if options.client is not None:
        options.edits = [*options.edits, f"client={options.client}"]
    with blaming("--client", "client"):
        job = job_from(options)
    chosen = checked_options(
        TicketOptions,
        {"paper": options.paper, "date": day_from(options.date)},
        prefix="--",
    )
    check_place(out, field="--out")
    making = write_ticket(
        job, picture_from(options), profiles_for(job, options.profile), options=chosen, file=out.name
    )
    made = run_shown(making)
    with file_at(out, field="--out") as file:
        file.write(made.data)
    if options.json:
        return json.dumps(made.report.model_dump(mode="json") | {"notes": plain_notes(made.notes)})
    return _prose(made.report, made.notes)


def _prose(report: TicketReport, notes: list[Note]) -> str:
    paper = {Paper.A4: "A4", Paper.LETTER: say("Letter")}[report.paper]
    lines = [
        say(
            "Saved {file}: {bytes:,} bytes, {pages} pages of {paper}",
            file=report.file,
            bytes=report.bytes,
            pages=report.pages,
            paper=paper,
        )
    ]
    lines += note_lines(notes)
    return "\n".join(lines)
