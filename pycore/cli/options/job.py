"""The options that every command shares: the job, its edits, and JSON on standard output."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from pycore.cli.options.named_files import BundledName, file_bytes
from pycore.contract.check import edited_job, job_tree, parse_job
from pycore.contract.job import Job
from pycore.contract.migrations import opening_notes
from pycore.contract.notes import Note
from pycore.errors import FieldError, TuckfoldError, shown
from pycore.speech import say

#: What a zip archive begins with.
_ARCHIVE: Final = b"PK"


def add_job_options(command: argparse.ArgumentParser) -> None:
    """Add `--job`, `--set`, `--presets`, `--take` and `--json` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "--job",
        metavar="FILE",
        help=say(
            "the job file (JSON), or a bundle (.zip) with its picture and profile; without it "
            "every field has its default"
        ),
    )
    command.add_argument(
        "--set",
        metavar="FIELD=VALUE",
        action="append",
        default=[],
        dest="edits",
        help=say("change one field of the job, for example face.width_mm=210; may be given several times"),
    )
    add_preset_options(command)
    command.add_argument("--json", action="store_true", help=say("print one JSON object"))


def add_preset_options(command: argparse.ArgumentParser) -> None:
    """Add `--presets` and `--take` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "--presets", metavar="FILE", help=say("your own sheets, rolls, bars and canvases (JSON), for --take")
    )
    command.add_argument(
        "--take",
        metavar="KIND=NAME",
        action="append",
        default=[],
        help=say(
            "take one of them: sheet=NAME, roll=NAME, bars=NAME or canvas=NAME; may be given "
            "several times; --set comes after it"
        ),
    )


def job_from(options: argparse.Namespace) -> Job:
    """The job that the options describe.

    Parameters
    ----------
    options : argparse.Namespace
        With `job`, `edits`, `presets` and `take`.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The file cannot be read, or the job is wrong.
    """
    return job_and_notes(options)[0]


def job_and_notes(options: argparse.Namespace) -> tuple[Job, list[Note]]:
    """The job that the options describe, and what of an older file is worth a look.

    Parameters
    ----------
    options : argparse.Namespace
        With `job`, `edits`, `presets` and `take`.

    Returns
    -------
    tuple of Job and list of Note

    Raises
    ------
    FieldError
        The file cannot be read, or the job is wrong.
    """
    text = None if options.job is None else _text(options)
    tree = job_tree(Job()) if text is None else parse_job(text)
    notes = [] if text is None else opening_notes(json.loads(text))
    return edited_job(tree, options.edits, take=taker_from(options)), notes


def taker_from(options: argparse.Namespace) -> Callable[[Job], Job] | None:
    """What puts into a job what the options take of presets; their file is read once.

    Parameters
    ----------
    options : argparse.Namespace
        With `take` and `presets`.

    Returns
    -------
    callable or None
        From a checked job to a checked job; None where the options name neither. It raises a FieldError
        where the presets or a choice cannot be used.
    """
    if not options.take and options.presets is None:
        return None
    from pycore.cli.options.presets import preset_taker

    return preset_taker(options)


@contextmanager
def blaming(option: str, *fields: str) -> Iterator[None]:
    """Let an error be about the option that held the value.

    Parameters
    ----------
    option : str
        As the user writes it.
    *fields : str
        The fields that the option's value went into.

    Yields
    ------
    None
        The block inside runs.

    Raises
    ------
    TuckfoldError
        What was raised inside, about the option where it was about one of the fields.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> try:
    ...     with blaming("--depths", "bars.depth_mm"):
    ...         check_job({"bars": {"depth_mm": 3}})
    ... except FieldError as wrong:
    ...     print(wrong.message)
    --depths must be 6 to 100 mm; you gave 3.
    """
    try:
        yield
    except TuckfoldError as wrong:
        if wrong.field not in fields:
            raise
        raise wrong.about(option) from wrong


def numbers_from(text: str, *, option: str, expected: str, example: str) -> list[float]:
    """The numbers of an option's value.

    Parameters
    ----------
    text : str
        With commas between them.
    option, expected, example : str
        For the message.

    Returns
    -------
    list of float

    Raises
    ------
    FieldError
        One of them is no number.

    Examples
    --------
    >>> numbers_from("18, 38", option="--depths", expected="lengths in mm", example="18,38")
    [18.0, 38.0]
    """
    try:
        return [float(one) for one in words_from(text)]
    except ValueError as wrong:
        raise FieldError(
            field=option,
            expected=expected,
            got=shown(text),
            remedy=say("write for example {example}", example=example),
        ) from wrong


def words_from(text: str) -> list[str]:
    """The words of an option's value, between its commas.

    Parameters
    ----------
    text : str

    Returns
    -------
    list of str
        Without the spaces around them; empty words stay.

    Examples
    --------
    >>> words_from("mirror, fade")
    ['mirror', 'fade']
    """
    return [one.strip() for one in text.split(",")]


def job_text_of(data: bytes) -> str:
    """The text of a job, from the bytes of a job file or of a bundle.

    Parameters
    ----------
    data : bytes

    Returns
    -------
    str
        JSON.

    Raises
    ------
    BundleError
        It begins as a bundle does, and is none that can be opened.
    UnicodeDecodeError
        It is no text in UTF-8.

    Examples
    --------
    >>> job_text_of(b"{}")
    '{}'
    """
    if data[:2] != _ARCHIVE:
        return data.decode("utf-8-sig")
    from pycore.tasks.bundle import read_bundle

    return read_bundle(data).text


def _text(options: argparse.Namespace) -> str:
    """The job's text. A bundle's picture and profile stand in where the options name none."""
    data = file_bytes(options.job, field="--job")
    if data[:2] == _ARCHIVE:
        return _from_bundle(data, options)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="--job",
            expected=say("a job file (JSON in UTF-8) or a bundle"),
            got=say("{job!r}, which is neither", job=options.job),
            remedy=say("check the name"),
        ) from wrong


def _from_bundle(data: bytes, options: argparse.Namespace) -> str:
    from pycore.bundle.content import Role
    from pycore.tasks.bundle import read_bundle

    bundle = read_bundle(data)
    for role, option in ((Role.PICTURE, "picture"), (Role.PROFILE, "profile"), (Role.WALL, "wall")):
        if role in bundle.files and getattr(options, option, "") is None:
            setattr(options, option, BundledName.of(bundle.files[role]))
    return bundle.text
