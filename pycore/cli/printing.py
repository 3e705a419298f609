"""`tuckfold print`: write the print file, of a group one a panel, re-open it, and say what was found."""

from __future__ import annotations

import argparse
import datetime
import json
from pathlib import Path
from typing import Any

from pycore.bridge.messages import FileKind, FileReport
from pycore.cli.bench_notes import stopping_notes
from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.proofing import desk_for
from pycore.contract.job import Convert
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.layout.group import panel_jobs
from pycore.layout.group_notes import panel_notes
from pycore.printing.write import PrintRun
from pycore.progress import last
from pycore.proofing.print_colours import print_colours
from pycore.render.preview import PreviewSource

_KINDS = {
    ".tif": FileKind.TIFF,
    ".tiff": FileKind.TIFF,
    ".png": FileKind.PNG,
    ".jpg": FileKind.JPEG,
    ".jpeg": FileKind.JPEG,
}


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "print", help="write the print file: TIFF, PNG or JPEG at exact size"
    )
    add_job_options(command)
    add_picture(command)
    command.add_argument(
        "--out",
        metavar="FILE",
        required=True,
        help="the print file; its ending chooses the format; of a group FILE-1of3 and so on",
    )
    command.add_argument(
        "--profile", metavar="FILE", help="the canvas's ICC profile, for bringing in and converting"
    )
    command.add_argument(
        "--date", metavar="YYYY-MM-DD", help="the date in the text line among the marks; today without it"
    )
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> str:
    """Run the command and return what to print."""
    job = job_from(options)
    out = Path(options.out)
    kind = _KINDS.get(out.suffix.lower())
    if kind is None:
        raise FieldError(
            field="--out",
            expected="a name that ends in .tif, .tiff, .png, .jpg or .jpeg",
            got=repr(out.name),
            remedy="choose one of these formats",
        )
    source = picture_from(options)
    colours = None
    if job.print.convert is Convert.CONVERT or job.colour.bring_in > 0:
        colours = last(print_colours(job, desk_for(job, options.profile), PreviewSource(source)))
    date = _date(options.date)
    common = [*stopping_notes(job), *source.info.notes]
    panels = panel_jobs(job, width_px=source.width_px, height_px=source.height_px)
    written = []
    for number, panel in enumerate(panels, start=1):
        name = out if len(panels) == 1 else out.with_stem(f"{out.stem}-{number}of{len(panels)}")
        writing = PrintRun(source, panel, kind=kind, out=name, date=date, colours=colours)
        for _ in writing.steps():
            pass
        written.append((writing.report, panel_notes(writing.notes, job, number)))
    if len(written) == 1:
        report, notes = written[0]
        notes = [*common, *notes]
        return json.dumps(print_figures(report, notes)) if options.json else _prose(report, notes)
    if options.json:
        files = [print_figures(report, notes) for report, notes in written]
        return json.dumps({"files": files, "notes": plain_notes(common)})
    return "\n".join([*(_prose(report, notes) for report, notes in written), *note_lines(common)])


def print_figures(report: FileReport, notes: list[Note]) -> dict[str, Any]:
    """What was re-read from the file, as one JSON object."""
    return report.model_dump(mode="json") | {"notes": plain_notes(notes)}


def _date(text: str | None) -> str:
    if text is None:
        return datetime.date.today().isoformat()
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError as wrong:
        raise FieldError(
            field="--date",
            expected="a day as YYYY-MM-DD",
            got=repr(text),
            remedy="write for example 2031-04-30",
        ) from wrong


def _prose(report: FileReport, notes: list[Note]) -> str:
    lines = [
        f"{report.file}: {report.format}, {report.bits} bits, {report.bytes:,} bytes",
        f"{report.width_px} x {report.height_px} pixels at {report.ppi[0]:.2f} x {report.ppi[1]:.2f} ppi",
        f"{report.size_mm[0]:.2f} x {report.size_mm[1]:.2f} mm",
        f"profile: {report.profile_name or 'none embedded'}",
    ]
    return "\n".join([*lines, *note_lines(notes)])
