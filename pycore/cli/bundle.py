"""`tuckfold bundle`: save a job with its picture, profile and wall photograph as one file."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Final

from pycore.bundle.content import BundledFile, Role
from pycore.bundle.report import BundleReport
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.named_files import file_bytes
from pycore.cli.options.out import out_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.printing.place import check_place, file_at
from pycore.speech import say
from pycore.tasks.bundle import save_bundle


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
        help=say("the bundle; its name ends in .zip; it may be that of --job"),
    )
    command.add_argument("--wall", metavar="FILE", help=say("a photograph of the wall, kept with the job"))
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
        The name of the output file does not end in .zip, or an option is wrong.
    TuckfoldError
        A field of the job or a file cannot be used.
    """
    job = job_from(options)
    out = out_from(options, ".zip", expected=say("a name that ends in .zip"))
    check_place(out, field="--out")
    # What cannot be used is refused here, and not where the bundle is opened.
    picture_from(options)
    profiles_for(job, options.profile)
    given: dict[Role, tuple[str, str]] = {Role.PICTURE: (options.picture, "PICTURE")}
    profile = options.profile or job.colour.profile
    if profile != ILLUSTRATIVE_NAME:
        given[Role.PROFILE] = profile, "--profile"
    if options.wall is not None:
        given[Role.WALL] = options.wall, "--wall"
    files = {
        role: BundledFile(name=Path(name).name, data=file_bytes(name, field=field))
        for role, (name, field) in given.items()
    }
    written = save_bundle(job, files, file=out.name)
    with file_at(out, field="--out") as file:
        file.write(written.data)
    return json.dumps(written.report.model_dump(mode="json")) if options.json else _prose(written.report)


_ROLE_WORDS: Final = {
    Role.PICTURE: say("picture"),
    Role.PROFILE: say("profile"),
    Role.WALL: say("wall"),
    Role.WALL_MARKS: say("wall-marks"),
}


def _prose(report: BundleReport) -> str:
    held = [f"{say(_ROLE_WORDS[one.role])} {one.name}" for one in report.files]
    return say(
        "Saved {file}: {bytes:,} bytes, the job with {held}",
        file=report.file,
        bytes=report.bytes,
        held=", ".join(held),
    )
