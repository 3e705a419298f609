"""The picture that most commands are given."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from pycore.cli.options.named_files import file_bytes
from pycore.cli.progress_line import run_shown
from pycore.errors import FieldError
from pycore.speech import say

if TYPE_CHECKING:
    from pycore.tasks.open_picture import OpenPicture

_ABOUT = say("the picture: JPEG, PNG, TIFF or WebP")


def add_picture(command: argparse.ArgumentParser, *, is_needed: bool = True) -> None:
    """Add `PICTURE` to a command.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    is_needed : bool
        Otherwise the command can do without a picture.
    """
    about = (
        say("{about}; without it that of the bundle given as the job", about=_ABOUT) if is_needed else _ABOUT
    )
    command.add_argument("picture", metavar="PICTURE", nargs="?", help=about)


def picture_from(options: argparse.Namespace) -> OpenPicture:
    """The picture that the options name.

    Parameters
    ----------
    options : argparse.Namespace
        With `picture`.

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

    if options.picture is None:
        raise FieldError(
            field="PICTURE",
            expected=say("named, or lie in the bundle that is given as --job"),
            got=say("none"),
            remedy=say("name the picture's file"),
        )
    data = file_bytes(options.picture, field="PICTURE")
    return run_shown(open_picture(data, file=Path(options.picture).name))
