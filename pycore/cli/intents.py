"""`tuckfold intents`: the rendering intents compared on a picture as it is filed."""

from __future__ import annotations

import argparse
import dataclasses
import json

from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.profile_option import about_profile, add_profile_option, profiles_for
from pycore.colour.mapping.intent_advice import name_of
from pycore.progress import run_to_end
from pycore.tasks.colour import intents


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_job_options(command)
    add_picture(command)
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
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job = job_from(options)
    profiles = profiles_for(job, options.profile)
    compared = run_to_end(intents(job, picture_from(options), profiles))
    profile = compared.profile
    if options.json:
        plain = {
            "intents": [dataclasses.asdict(one) for one in compared.figures],
            "recommended": dataclasses.asdict(compared.advice),
        }
        return json.dumps(about_profile(profile) | plain)
    lines = [profile.description]
    lines += [
        f"  {name_of(one)}: {one.clipped_share:.2%} clips flat, {one.mean_de:.2f} dE00 on average, "
        f"{one.p95_de:.2f} at the 95th percentile, hue turned {one.hue_shift_deg:.1f} degrees"
        for one in compared.figures
    ]
    return "\n".join([*lines, compared.advice.reason, *(note.message for note in profile.notes)])
