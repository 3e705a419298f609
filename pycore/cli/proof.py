"""`tuckfold proof`: the flat canvas as it will look when printed, or its clip map, as a picture."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import about_profile, add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.colour.link.viewing import Viewing
from pycore.speech import say
from pycore.tasks.proof import ProofView, check_proof_place, write_proof


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)
    add_profile_option(command)
    command.add_argument(
        "--out", metavar="FILE", required=True, help=say("the picture of the proof, a PNG or JPEG")
    )
    command.add_argument(
        "--view",
        choices=[one.value for one in ProofView],
        default=ProofView.PRINTED.value,
        help=say(
            "printed: the canvas as it prints; clip-map: what lies outside the gamut, and by how "
            "much; printed where nothing else is named"
        ),
    )
    command.add_argument(
        "--viewing",
        choices=[one.value for one in Viewing],
        default=Viewing.BLACK.value,
        help=say(
            "canvas: the canvas's white and black; black: its black alone; neither: both fitted to "
            "the screen; black where nothing else is named"
        ),
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
    job, out = job_from(options), Path(options.out)
    check_proof_place(out)
    written = run_shown(
        write_proof(
            job,
            picture_from(options),
            profiles_for(job, options.profile),
            view=ProofView(options.view),
            viewing=Viewing(options.viewing),
            out=out,
        )
    )
    profile = written.profile
    if options.json:
        figures = {
            "file": written.file,
            "width_px": written.width_px,
            "height_px": written.height_px,
            "bytes": written.bytes,
        }
        return json.dumps(about_profile(profile) | figures)
    size = say("{width_px} x {height_px} pixels", width_px=written.width_px, height_px=written.height_px)
    lines = [
        say(
            "Saved {file}: {size} in sRGB, {description}",
            file=written.file,
            size=size,
            description=profile.description,
        )
    ]
    return "\n".join(lines + note_lines(profile.notes))
