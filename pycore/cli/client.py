"""`tuckfold client`: one HTML file for the client, which opens without any network."""

from __future__ import annotations

import argparse
import datetime
import json
import os
from pathlib import Path
from typing import Any

from pycore.bridge.showing_messages import ClientReport, Surroundings, Variant
from pycore.cli.job_options import add_job_options, file_bytes, job_from
from pycore.cli.proofing import desk_for, last
from pycore.client.page import make_client_page, viewer_program
from pycore.client.recheck import check_client_page
from pycore.compare.variants import depth_variants, fill_variants
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import FieldError, OutputError
from pycore.picture.read import read_picture
from pycore.printing.preview import PreviewSource

#: The longest message, as in `ClientParams`.
_MESSAGE_LENGTH = 2000


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "client", help="the page for the client: one HTML file with a 3D view that opens without a network"
    )
    add_job_options(command)
    command.add_argument("picture", metavar="PICTURE", help="the picture: JPEG, PNG, TIFF or WebP")
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
    source = read_picture(file_bytes(options.picture, field="PICTURE"), file=Path(options.picture).name)
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
    report = _written(page.data, out, variants=len(variants))
    if options.json:
        plain = [note.model_dump(mode="json") for note in page.notes]
        return json.dumps(report.model_dump(mode="json") | {"notes": plain})
    return _prose(report, page.notes)


def _variants(job: Job, options: argparse.Namespace) -> list[Variant]:
    if options.depths is not None:
        return depth_variants(job, _numbers(options.depths))
    if options.fills is not None:
        return fill_variants(job, [part.strip() for part in options.fills.split(",")])
    return [Variant(label="", job=job)]


def _numbers(text: str) -> list[float]:
    try:
        return [float(part) for part in text.split(",")]
    except ValueError as wrong:
        raise FieldError(
            field="--depths",
            expected="lengths in mm apart by commas",
            got=repr(text),
            remedy="write for example 18,38,50",
        ) from wrong


def _written(data: bytes, out: Path, *, variants: int) -> ClientReport:
    """Write under another name beside it, read that again, and only then give it its own."""
    beside = out.with_name(f".{out.name}.part")
    try:
        beside.write_bytes(data)
        try:
            report = check_client_page(beside.read_bytes(), file=out.name, variants=variants)
            os.replace(beside, out)
        finally:
            beside.unlink(missing_ok=True)
    except (OSError, ValueError) as wrong:
        raise OutputError(
            field="--out", expected="a place that can be written", got=str(wrong), remedy="choose another"
        ) from wrong
    return report


def _prose(report: ClientReport, notes: list[Note]) -> str:
    offered = "1 canvas" if report.variants == 1 else f"{report.variants} to choose from"
    lines = [f"{report.file}: {report.bytes:,} bytes, {offered}"]
    lines += [f"{note.severity.value}: {note.message} {note.remedy}" for note in notes]
    return "\n".join(lines)
