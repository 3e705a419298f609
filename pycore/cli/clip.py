"""`tuckfold clip`: where a picture leaves the canvas's gamut, after bringing in."""

from __future__ import annotations

import argparse
import dataclasses
import json
from typing import Any

from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import about_profile, add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.colour.mapping.clip_report import ClipReport
from pycore.speech import say
from pycore.tasks.colour import clip


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
    report = run_shown(clip(job, picture_from(options), profiles)).report
    profile = profiles.profile(job.colour.profile)
    if options.json:
        return json.dumps(about_profile(profile) | clip_figures(report))
    lines = [_verdict(report, profile.description)]
    lines += [
        say(
            "  {one}: {share:.2%} outside (chroma {chroma:.2%}, shadow {shadow:.2%}, highlight "
            "{highlight:.2%}), at worst {worst_de:.1f} dE00",
            one=say(one.name),
            share=one.share,
            chroma=one.chroma,
            shadow=one.shadow,
            highlight=one.highlight,
            worst_de=one.worst_de,
        )
        for one in report.regions
    ]
    lines += [
        say(
            "  {number}. {one}: {share:.2%}, {filed} prints as {printed}, {mean_de:.1f} dE00 "
            "on average, {worst_de:.1f} at worst",
            number=one.number,
            one=one.name,
            share=one.share,
            filed=one.filed,
            printed=one.printed,
            mean_de=one.mean_de,
            worst_de=one.worst_de,
        )
        for one in report.groups
    ]
    return "\n".join(lines + note_lines(profile.notes))


def _verdict(report: ClipReport, description: str) -> str:
    by = say("by more than {threshold_de:g} dE00", threshold_de=report.threshold_de)
    if report.outside_share == 0:
        return say("Nothing lies outside the gamut of {description} {by}.", description=description, by=by)
    return say(
        "{outside_share:.2%} of what is seen lies outside the gamut of {description} {by}.",
        outside_share=report.outside_share,
        description=description,
        by=by,
    )


def clip_figures(report: ClipReport) -> dict[str, Any]:
    """A clip report as plain data; shares 0 to 1, differences CIEDE2000.

    Parameters
    ----------
    report : ClipReport

    Returns
    -------
    dict
        JSON data: `threshold_de`, `outside_share` (of all that is seen), `regions` and `groups`, each with
        the `share` that lies outside the gamut.
    """
    return {
        "threshold_de": report.threshold_de,
        "outside_share": report.outside_share,
        "regions": [dataclasses.asdict(one) for one in report.regions],
        "groups": [dataclasses.asdict(one) for one in report.groups],
    }
