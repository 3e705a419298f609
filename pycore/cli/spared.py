"""What a command reads is never what it overwrites."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

from pycore.errors import FieldError, shown
from pycore.printing.place import is_one_file
from pycore.speech import say

#: Where the parser puts the names of files that are read, and what the user calls each.
_READ: Final = {
    "picture": "PICTURE",
    "photo": "PHOTO",
    "answer": "ANSWER",
    "jobs": "JOBS",
    "job": "--job",
    "presets": "--presets",
    "profile": "--profile",
    "wall": "--wall",
    "in_front": "--in-front",
    "options": "--options",
}

#: A job is read whole before it is saved again, which is how it is changed in its place.
_SAVES_THE_JOB: Final = ("answer", "bundle")


def spare_what_is_read(options: argparse.Namespace, written: Iterable[Path]) -> None:
    """Refuse to write over a file that the command reads: a photograph may have no copy.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.
    written : iterable of Path
        Where files will be put; folders do not count.

    Raises
    ------
    FieldError
        One of them is a file that the options name, whatever its path is called.

    Examples
    --------
    >>> spare_what_is_read(argparse.Namespace(command="print", picture="quay.tif"), [Path("print.tif")])
    """
    for out in written:
        for name, read in _files_read(options):
            if is_one_file(read, out):
                raise FieldError(
                    field="--out",
                    expected=say("another file than {name}, which would be lost", name=name),
                    got=shown(str(out)),
                    remedy=say("choose another name"),
                )


def _files_read(options: argparse.Namespace) -> Iterator[tuple[str, Path]]:
    for held, name in _READ.items():
        if held == "job" and options.command in _SAVES_THE_JOB:
            continue
        given = getattr(options, held, None)
        for one in given if isinstance(given, list) else [given]:
            if isinstance(one, str):
                yield name, Path(one)
