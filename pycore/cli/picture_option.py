"""The picture that most commands are given."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from pycore.cli.job_options import file_bytes
from pycore.progress import run_to_end

if TYPE_CHECKING:
    from pycore.tasks.open_picture import OpenPicture

_ABOUT = "the picture: JPEG, PNG, TIFF or WebP"


def add_picture(command: argparse.ArgumentParser) -> None:
    """Add `PICTURE` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("picture", metavar="PICTURE", help=_ABOUT)


def add_picture_option(command: argparse.ArgumentParser) -> None:
    """Add `--picture` to a command that can do without a picture.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("--picture", metavar="FILE", help=_ABOUT)


def picture_from(options: argparse.Namespace, *, field: str = "PICTURE") -> OpenPicture:
    """The picture that the options name.

    Parameters
    ----------
    options : argparse.Namespace
        With `picture`.
    field : str
        What to call it in a message.

    Returns
    -------
    OpenPicture

    Raises
    ------
    FieldError, PictureError
        It cannot be read.
    """
    # Where no picture is given, nothing of it is loaded.
    from pycore.tasks.open_picture import open_picture

    data = file_bytes(options.picture, field=field)
    return run_to_end(open_picture(data, file=Path(options.picture).name))
