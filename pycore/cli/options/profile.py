"""The option that names the canvas's profile, and the store that it is opened in."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import Any

from pycore.cli.note_lines import plain_notes
from pycore.cli.options.named_files import file_bytes
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.contract.job import Job
from pycore.proofing.canvas_profile import CanvasProfile, illustrative_canvas, read_canvas_profile
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import say


def add_profile_option(command: argparse.ArgumentParser, *, purpose: str = "") -> None:
    """Add `--profile` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    purpose : str
        For which jobs the profile is needed, where only some need it; it follows the help text.
    """
    about = purpose or say("; without it the job's colour.profile")
    command.add_argument(
        "--profile", metavar="FILE", help=say("the canvas's ICC profile{about}", about=about)
    )


def profiles_for(job: Job, file: str | None) -> ProfileStore:
    """A store that holds the profile which a job names, or the file given in its place.

    Parameters
    ----------
    job : Job
    file : str or None
        A path.

    Returns
    -------
    ProfileStore

    Raises
    ------
    FieldError, ProfileError
        It cannot be read, or is no printer's profile.
    """
    profiles = ProfileStore()
    profiles.keep(replace(_canvas_profile(job, file), name=job.colour.profile))
    return profiles


def about_profile(profile: CanvasProfile) -> dict[str, Any]:
    """Describe the canvas's profile for a command's JSON.

    Parameters
    ----------
    profile : CanvasProfile

    Returns
    -------
    dict
        JSON data: `profile` and `notes`.
    """
    return {
        "profile": {"description": profile.description, "illustration": profile.illustration},
        "notes": plain_notes(profile.notes),
    }


def _canvas_profile(job: Job, file: str | None) -> CanvasProfile:
    name = file or job.colour.profile
    if name == ILLUSTRATIVE_NAME:
        return illustrative_canvas()
    return read_canvas_profile(
        file_bytes(name, field="--profile" if file else "colour.profile"), name=Path(name).name
    )
