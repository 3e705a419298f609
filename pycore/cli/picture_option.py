"""The picture that most commands are given."""

from __future__ import annotations

import argparse
from pathlib import Path

from pycore.cli.job_options import file_bytes
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture

_ABOUT = "the picture: JPEG, PNG, TIFF or WebP"


def add_picture(command: argparse.ArgumentParser) -> None:
    """Add `PICTURE` to a command."""
    command.add_argument("picture", metavar="PICTURE", help=_ABOUT)


def add_picture_option(command: argparse.ArgumentParser) -> None:
    """Add `--picture` to a command that can do without."""
    command.add_argument("--picture", metavar="FILE", help=_ABOUT)


def picture_from(options: argparse.Namespace, *, field: str = "PICTURE") -> SourcePicture:
    """The picture that the options name.

    Parameters
    ----------
    options : argparse.Namespace
        With `picture`.
    field : str
        What to call it in a message.

    Returns
    -------
    SourcePicture

    Raises
    ------
    FieldError, PictureError
        It cannot be read.
    """
    return read_picture(file_bytes(options.picture, field=field), file=Path(options.picture).name)
