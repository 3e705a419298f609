"""`tuckfold client`: one HTML file for the client, which opens without any network."""

from __future__ import annotations

import argparse
import datetime
import json
from pathlib import Path
from typing import Any

from pycore.bridge.showing_messages import ClientReport, Surroundings, Variant
from pycore.cli.job_options import add_job_options, job_from, numbers_from, words_from
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.proofing import desk_for
from pycore.client.page import make_client_page, viewer_program
from pycore.client.recheck import check_client_page
from pycore.compare.variants import depth_variants, fill_variants
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.printing.place import check_place, file_at
from pycore.progress import last
from pycore.render.preview import PreviewSource

#: The longest message, as in `ClientParams`.
_MESSAGE_LENGTH = 2000


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "client", help="the page for the client: one HTML file with a 3D view that opens without a network"
    )
    add_job_options(command)
    add_picture(command)
    command.add_argument("--out", metavar="FILE", required=True, help="the page; its name ends in .html")
    offered = command.add_mutually_exclusive_group()
    offered.add_argument("--depths", metavar="MM,MM", help="offer these bar depths, two to four")
    offered.add_argument("--fills", metavar="FILL,FILL", help="offer these side fills, two to four")
    command.add_argument("--message", metavar="TEXT", default="", help="a few words to the client")
    command.add_argument("--date", metavar="YYYY-MM-DD", help="the date on the page; today without it")
    command.add_argument(
        "--profile", metavar="FILE", help="the canvas's ICC profile; without it the job's colour.profile"
    )
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> str:
    """Run the command and return what to print."""
    job, out = job_from(options), Path(options.out)
    if out.suffix.lower() not in {".html", ".htm"}:
        raise FieldError(
            field="--out", expected="a name that ends in .html", got=repr(out.name), remedy="rename it"
        )
    if len(options.message) > _MESSAGE_LENGTH:
        raise FieldError(
            field="--message",
            expected=f"at most {_MESSAGE_LENGTH} characters",
            got=f"{len(options.message)}",
            remedy="say it in fewer words",
        )
    variants = _variants(job, options)
    check_place(out, field="--out")
    source = picture_from(options)
    page = last(
        make_client_page(
            variants,
            PreviewSource(source),
            desk_for(job, options.profile),
            viewer=viewer_program(),
            message=options.message,
            date=options.date or datetime.date.today().isoformat(),
            surroundings=Surroundings(),
        )
    )
    with file_at(out, field="--out") as file:
        file.write(page.data)
        file.seek(0)
        report = check_client_page(file.read(), file=out.name, variants=len(variants))
    if options.json:
        plain = plain_notes(page.notes)
        return json.dumps(report.model_dump(mode="json") | {"notes": plain})
    return _prose(report, page.notes)


def _variants(job: Job, options: argparse.Namespace) -> list[Variant]:
    if options.depths is not None:
        return depth_variants(
            job,
            numbers_from(
                options.depths,
                option="--depths",
                expected="lengths in mm apart by commas",
                example="18,38,50",
            ),
        )
    if options.fills is not None:
        return fill_variants(job, words_from(options.fills))
    return [Variant(label="", job=job)]


def _prose(report: ClientReport, notes: list[Note]) -> str:
    offered = "1 canvas" if report.variants == 1 else f"{report.variants} to choose from"
    lines = [f"{report.file}: {report.bytes:,} bytes, {offered}"]
    lines += note_lines(notes)
    return "\n".join(lines)
