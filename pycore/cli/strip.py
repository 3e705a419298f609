"""`tuckfold strip`: save a proof strip with its values, and read back what a device measured on it."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pycore.cli.columns import columns
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.day import day_from
from pycore.cli.options.job import add_job_options, job_and_notes
from pycore.cli.options.named_files import file_bytes
from pycore.cli.options.out import out_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.contract.notes import Note
from pycore.errors import FieldError, TuckfoldError
from pycore.printing.place import check_place, file_at
from pycore.speech import figure, say
from pycore.strip.report import StripCheck, StripReport
from pycore.tasks.strip import measure_strip, write_strip

DESCRIPTION = say(
    "With PICTURE and --out: save a proof strip and, beside it, the values that the "
    "profile promises. With --measured and --expected: compare what a device measured "
    "on the printed strip with them."
)

#: So many of the worst patches are listed.
_LISTED = 8


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command, is_needed=False)
    add_job_options(command)
    command.add_argument(
        "--out",
        metavar="FILE",
        help=say("the strip, a TIFF; its values lie beside it, with the ending .cgats.txt"),
    )
    add_profile_option(command)
    command.add_argument("--date", metavar="YYYY-MM-DD", help=say("the date on the strip; today without it"))
    command.add_argument(
        "--measured",
        metavar="FILE",
        help=say("what a device measured: CGATS text with L*a*b* or XYZ for D50"),
    )
    command.add_argument(
        "--expected", metavar="FILE", help=say("the values that were saved beside the strip, for --measured")
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
    FieldError
        An option is missing, or does not go with another.
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    if options.measured is not None or options.expected is not None:
        return _measured(options)
    for given, field in ((options.picture, "PICTURE"), (options.out, "--out")):
        if given is None:
            raise FieldError(
                field=field,
                expected=say("given to save a strip"),
                got=say("nothing"),
                remedy=say("give PICTURE and --out FILE.tif, or --measured and --expected"),
            )
    return _saved(options)


def _saved(options: argparse.Namespace) -> str:
    job, opening = job_and_notes(options)
    out = out_from(
        options,
        ".tif",
        ".tiff",
        expected=say("a name that ends in .tif"),
        remedy=say("rename it; the strip is a TIFF, which keeps each patch's values"),
    )
    beside = out.with_suffix(".cgats.txt")
    date = day_from(options.date)
    check_place(out, field="--out")
    check_place(beside, field="--out")
    picture = picture_from(options)
    with file_at(out, field="--out") as file, file_at(beside, field="--out") as values:
        written = run_shown(
            write_strip(
                job,
                picture,
                profiles_for(job, options.profile),
                out=file,
                file=out.name,
                values_file=beside.name,
                date=date,
            )
        )
        values.write(written.values)
    notes = [*picture.info.notes, *opening, *written.notes]
    if options.json:
        return json.dumps(written.report.model_dump(mode="json") | {"notes": plain_notes(notes)})
    return _prose(written.report, notes)


def _measured(options: argparse.Namespace) -> str:
    for given, field in ((options.measured, "--measured"), (options.expected, "--expected")):
        if given is None:
            raise FieldError(
                field=field,
                expected=say("given together with the other"),
                got=say("nothing"),
                remedy=say("give --measured FILE and --expected FILE"),
            )
    if options.picture is not None or options.out is not None:
        raise FieldError(
            field="--measured",
            expected=say("without PICTURE and --out"),
            got=say("both"),
            remedy=say("save the strip first, print and measure it, then read the values back"),
        )
    try:
        check = measure_strip(
            expected=file_bytes(options.expected, field="--expected"),
            measured=file_bytes(options.measured, field="--measured"),
        )
    except TuckfoldError as wrong:
        option = {"measured": "--measured", "expected": "--expected"}.get(wrong.field)
        if option is None:
            raise
        # Both are text of one kind: the sentence alone does not say which is wrong.
        raise wrong.about(option, file=Path(getattr(options, wrong.field)).name) from wrong
    return check.model_dump_json() if options.json else _verdict(check)


def _prose(report: StripReport, notes: list[Note]) -> str:
    lines = [
        say(
            "Saved {file}: {size_mm0:.1f} x {size_mm1:.1f} mm, {patch_count} patches. Print "
            "it at 100 percent (“actual size”), as you will print the piece.",
            file=report.file,
            size_mm0=report.size_mm[0],
            size_mm1=report.size_mm[1],
            patch_count=len(report.patches),
        ),
        say(
            "Saved {values_file}: what the profile promises for each patch, L*a*b* for D50.",
            values_file=report.values_file,
        ),
        say("strip    {strip_id}", strip_id=report.strip_id),
        say("profile  {profile_name}", profile_name=report.profile_name or say("none embedded")),
    ]
    return "\n".join([*lines, *note_lines(notes)])


def _verdict(check: StripCheck) -> str:
    lines = [
        say(
            "The print is off the profile's promise by {mean_de:.2f} dE00 on average over "
            "{patch_count} patches and by {worst_de:.2f} at worst; bare canvas and greys by "
            "{greys_mean_de:.2f}.",
            mean_de=check.mean_de,
            patch_count=len(check.patches),
            worst_de=check.worst_de,
            greys_mean_de=check.greys_mean_de,
        ),
    ]
    if check.doubtful:
        lines.append(say("They differ so much that the values may be another strip's."))
    lines += columns(
        [say("patch"), "", say("promised L*a*b*"), say("measured L*a*b*"), "dE00"],
        [
            [one.id, one.name, _lab(one.expected_lab), _lab(one.measured_lab), figure(one.de, ".2f")]
            for one in check.patches[:_LISTED]
        ],
        left=(0, 1),
    )
    return "\n".join(lines)


def _lab(lab: tuple[float, float, float]) -> str:
    return "".join(figure(one, "7.1f") for one in lab)
