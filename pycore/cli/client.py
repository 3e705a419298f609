"""`tuckfold client`: one HTML file for the client, which opens without any network."""

from __future__ import annotations

import argparse
import json

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.day import day_from
from pycore.cli.options.job import add_job_options, blaming, job_from, numbers_from, words_from
from pycore.cli.options.out import out_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.client.page import viewer_program
from pycore.client.report import ClientOptions, ClientReport
from pycore.compare.variants import Variant, depth_variants, offered_fills
from pycore.contract.check import checked_options
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.printing.place import check_place, file_at
from pycore.speech import say
from pycore.tasks.client_page import write_client_page


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)
    command.add_argument("--out", metavar="FILE", required=True, help=say("the page; its name ends in .html"))
    offered = command.add_mutually_exclusive_group()
    offered.add_argument("--depths", metavar="MM,MM", help=say("offer these bar depths, two to four"))
    offered.add_argument("--fills", metavar="FILL,FILL", help=say("offer these side fills, two to four"))
    command.add_argument("--message", metavar="TEXT", default="", help=say("a few words to the client"))
    command.add_argument("--date", metavar="YYYY-MM-DD", help=say("the date on the page; today without it"))
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
        The name of the output file does not end in .html, or an option is wrong.
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job = job_from(options)
    out = out_from(options, ".html", ".htm", expected=say("a name that ends in .html"))
    chosen = checked_options(
        ClientOptions,
        {"message": options.message, "date": day_from(options.date)},
        prefix="--",
    )
    variants = _variants(job, options)
    check_place(out, field="--out")
    making = write_client_page(
        variants,
        picture_from(options),
        profiles_for(job, options.profile),
        viewer=viewer_program(),
        options=chosen,
        file=out.name,
    )
    page = run_shown(making)
    with file_at(out, field="--out") as file:
        file.write(page.data)
    if options.json:
        plain = plain_notes(page.notes)
        return json.dumps(page.report.model_dump(mode="json") | {"notes": plain})
    return _prose(page.report, page.notes)


def _variants(job: Job, options: argparse.Namespace) -> list[Variant]:
    if options.depths is not None:
        depths = numbers_from(
            options.depths,
            option="--depths",
            expected=say("lengths in mm with commas between them"),
            example="18,38,50",
        )
        with blaming("--depths", "bars.depth_mm"):
            return depth_variants(job, depths)
    if options.fills is not None:
        with blaming("--fills", "sides.fill"):
            return offered_fills(job, words_from(options.fills))
    return [Variant(label="", job=job)]


def _prose(report: ClientReport, notes: list[Note]) -> str:
    offered = (
        say("1 canvas")
        if report.variants == 1
        else say("{variants} to choose from", variants=report.variants)
    )
    lines = [
        say("Saved {file}: {bytes:,} bytes, {offered}", file=report.file, bytes=report.bytes, offered=offered)
    ]
    lines += note_lines(notes)
    return "\n".join(lines)
