"""`tuckfold clip`: where a picture leaves the canvas's gamut, after bringing in."""

from __future__ import annotations

import argparse
import dataclasses
import json
from typing import Any

from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.profile_option import about_profile, add_profile_option, profiles_for
from pycore.colour.mapping.clip_report import ClipReport
from pycore.progress import run_to_end
from pycore.tasks.colour import clip


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
    report = run_to_end(clip(job, picture_from(options), profiles)).report
    profile = profiles.profile(job.colour.profile)
    if options.json:
        return json.dumps(about_profile(profile) | clip_figures(report))
    lines = [f"{profile.description}; by more than {report.threshold_de:g} dE00:"]
    lines += [
        f"  {one.name}: {one.share:.2%} clips (chroma {one.chroma:.2%}, shadow {one.shadow:.2%}, "
        f"highlight {one.highlight:.2%}), worst {one.worst_de:.1f}"
        for one in report.regions
    ]
    lines += [
        f"  {one.number}. {one.name}: {one.share:.2%}, {one.filed} prints as {one.printed}, "
        f"{one.mean_de:.1f} dE00 on average, {one.worst_de:.1f} at worst"
        for one in report.groups
    ]
    return "\n".join(lines + [note.message for note in profile.notes])


def clip_figures(report: ClipReport) -> dict[str, Any]:
    """A clip report as plain data; shares 0 to 1, differences CIEDE2000.

    Parameters
    ----------
    report : ClipReport

    Returns
    -------
    dict
        JSON data: `threshold_de`, `regions` and `groups`.
    """
    return {
        "threshold_de": report.threshold_de,
        "regions": [dataclasses.asdict(one) for one in report.regions],
        "groups": [dataclasses.asdict(one) for one in report.groups],
    }
