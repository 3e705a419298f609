"""The options that every command shares: the job, its edits, and JSON on standard output."""

from __future__ import annotations

import argparse
from pathlib import Path

from pycore.contract.check import check_job, edit_tree, job_tree, parse_job
from pycore.contract.job import Job
from pycore.errors import FieldError, shown


def add_job_options(command: argparse.ArgumentParser) -> None:
    """Add `--job`, `--set` and `--json` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "--job", metavar="FILE", help="the job file (JSON); without it every field's default"
    )
    command.add_argument(
        "--set",
        metavar="FIELD=VALUE",
        action="append",
        default=[],
        dest="edits",
        help="change one field of the job, for example face.width_mm=210; as often as you like",
    )
    command.add_argument("--json", action="store_true", help="print one JSON object")


def job_from(options: argparse.Namespace) -> Job:
    """The job that the options describe.

    Parameters
    ----------
    options : argparse.Namespace
        With `job` and `edits`.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The file cannot be read, or the job is wrong.
    """
    usual = job_tree(Job())
    tree = usual if options.job is None else parse_job(_text(options.job))
    # A file that says nothing of the sheet means the usual one. An edit of its width alone must not make a
    # sheet without a height of it, which would be a roll.
    tree.setdefault("sheet", usual["sheet"])
    return check_job(edit_tree(tree, options.edits))


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
            field=option, expected=expected, got=shown(text), remedy=f"write for example {example}"
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


def file_bytes(name: str, *, field: str) -> bytes:
    """The bytes of a file that the user named.

    Parameters
    ----------
    name : str
        A path.
    field : str
        What to call it in the message.

    Returns
    -------
    bytes

    Raises
    ------
    FieldError
        It cannot be read.
    """
    try:
        return Path(name).read_bytes()
    except (OSError, ValueError) as wrong:
        reason = wrong.strerror if isinstance(wrong, OSError) and wrong.strerror else str(wrong)
        raise FieldError(
            field=field,
            expected="a file that can be read",
            got=f"{name!r} ({reason})",
            remedy="check the name",
        ) from wrong


def _text(name: str) -> str:
    try:
        return file_bytes(name, field="--job").decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="--job",
            expected="a job file, JSON in UTF-8",
            got=f"{name!r}, which is not text",
            remedy="check the name",
        ) from wrong
