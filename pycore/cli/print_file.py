"""`tuckfold print`: write the print file, of a group one a panel, re-open it, and say what was found."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.day import day_from
from pycore.cli.options.job import add_job_options, job_and_notes
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.cli.spared import spare_what_is_read
from pycore.contract.notes import Note
from pycore.layout.group_notes import shared_notes
from pycore.printing.file_names import panel_name
from pycore.printing.report import FileReport, kind_of_file
from pycore.speech import say
from pycore.tasks.layout import printing_notes
from pycore.tasks.print_file import print_files


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
        "--out",
        metavar="FILE",
        required=True,
        help=say("the print file; its ending chooses the format; a group makes FILE-1of3 and so on"),
    )
    add_profile_option(command, purpose=say(", for bringing colours in and converting"))
    command.add_argument(
        "--date",
        metavar="YYYY-MM-DD",
        help=say("the date in the text line among the marks; today without it"),
    )


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
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job, opening = job_and_notes(options)
    out = Path(options.out)
    kind = kind_of_file(out.name or str(out), field="--out")
    date = day_from(options.date)
    picture = picture_from(options)
    count = job.group.panels
    places = {
        number: out.with_stem(panel_name(out.stem, number, count=count)) for number in range(1, count + 1)
    }
    spare_what_is_read(options, places.values())
    written = run_shown(
        print_files(job, picture, profiles_for(job, options.profile), kind=kind, date=date, places=places)
    )
    common = [*printing_notes(job, picture), *opening]
    if len(written) == 1:
        report, notes = written[0].report, [*common, *written[0].notes]
        return json.dumps(print_figures(report, notes)) if options.json else _prose(report, notes)
    if options.json:
        files = [print_figures(one.report, one.notes) for one in written]
        return json.dumps({"files": files, "notes": plain_notes(common)})
    shared = shared_notes([one.notes for one in written])
    lines: list[str] = []
    for one in written:
        lines.append(say("Saved {file}: {bytes:,} bytes", file=one.report.file, bytes=one.report.bytes))
        lines += note_lines([note for note in one.notes if note not in shared])
    # Panels are of one size, resolution and profile.
    each = written[0].report
    lines.append(
        say(
            "Each file: {size_mm0:.2f} x {size_mm1:.2f} mm. Print it at 100 percent (“actual size”).",
            size_mm0=each.size_mm[0],
            size_mm1=each.size_mm[1],
        )
    )
    lines.append(say("{format}, {bits} bits", format=each.format, bits=each.bits))
    return "\n".join([*lines, *_pixel_lines(each), *note_lines([*shared, *common])])


def print_figures(report: FileReport, notes: list[Note]) -> dict[str, Any]:
    """Put what was re-read from the file into one JSON object.

    Parameters
    ----------
    report : FileReport
    notes : list of Note
        About this file.

    Returns
    -------
    dict
        The report's fields, and `notes`.
    """
    return report.model_dump(mode="json") | {"notes": plain_notes(notes)}


def _prose(report: FileReport, notes: list[Note]) -> str:
    lines = [
        say(
            "Saved {file}: {size_mm0:.2f} x {size_mm1:.2f} mm. Print it at 100 percent (“actual size”).",
            file=report.file,
            size_mm0=report.size_mm[0],
            size_mm1=report.size_mm[1],
        ),
        say(
            "{format}, {bits} bits, {bytes:,} bytes",
            format=report.format,
            bits=report.bits,
            bytes=report.bytes,
        ),
        *_pixel_lines(report),
    ]
    return "\n".join([*lines, *note_lines(notes)])


def _pixel_lines(report: FileReport) -> list[str]:
    return [
        say(
            "{width_px} x {height_px} pixels at {ppi0:.2f} x {ppi1:.2f} ppi",
            width_px=report.width_px,
            height_px=report.height_px,
            ppi0=report.ppi[0],
            ppi1=report.ppi[1],
        ),
        say("profile: {profile_name}", profile_name=report.profile_name or say("none embedded")),
    ]
