"""`tuckfold intents`: the rendering intents compared on a picture as it is filed."""

from __future__ import annotations

import argparse
import dataclasses
import json

from pycore.cli.columns import columns
from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import about_profile, add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.colour.mapping.intent_advice import name_of
from pycore.speech import figure, say
from pycore.tasks.colour import intents


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
    compared = run_shown(intents(job, picture_from(options), profiles))
    profile = compared.profile
    if options.json:
        plain = {
            "intents": [dataclasses.asdict(one) for one in compared.figures],
            "recommended": dataclasses.asdict(compared.advice),
        }
        return json.dumps(about_profile(profile) | plain)
    advice = compared.advice
    chosen = compared.figures[compared.recommended]
    edits = (
        f"--set colour.intent={advice.intent.value} "
        f"--set colour.black_point_compensation={str(advice.black_point_compensation).lower()}"
    )
    lines = [
        say("Recommended: {best}, because {reason}", best=name_of(chosen), reason=advice.reason),
        f"  {edits}",
        "",
        say(
            "On {description}; {outside_share:.1%} of the picture lies outside its gamut by "
            "more than {clip_threshold_de:g} dE00 for this intent.",
            description=profile.description,
            outside_share=chosen.outside_share,
            clip_threshold_de=job.colour.clip_threshold_de,
        ),
        say("Flattened: tones and steps that are no longer told apart in print. Differences in dE00."),
        *columns(
            [say("intent##rendering"), say("flattened"), say("mean"), "95 %", say("hue shift")],
            [
                [
                    name_of(one),
                    figure(one.flattened_share, ".2%"),
                    figure(one.mean_de, ".2f"),
                    figure(one.p95_de, ".2f"),
                    say("{hue_shift_deg:.1f} degrees", hue_shift_deg=one.hue_shift_deg),
                ]
                for one in compared.figures
            ],
        ),
    ]
    return "\n".join([*lines, *note_lines(profile.notes)])
