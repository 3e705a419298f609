"""`--out` of the commands that save one kind of file."""

from __future__ import annotations

import argparse
from pathlib import Path

from pycore.errors import FieldError
from pycore.speech import say


def out_from(options: argparse.Namespace, *endings: str, expected: str, remedy: str | None = None) -> Path:
    """The file that the options name.

    Parameters
    ----------
    options : argparse.Namespace
        With `out`.
    *endings : str
        What its name may end in, in small letters.
    expected : str
        The same for the message.
    remedy : str, optional
        For the message; to rename it where nothing is given.

    Returns
    -------
    Path

    Raises
    ------
    FieldError
        Its name ends otherwise.

    Examples
    --------
    >>> out_from(argparse.Namespace(out="Tide.GLB"), ".glb", expected="a name that ends in .glb").suffix
    '.GLB'
    """
    out = Path(options.out)
    if out.suffix.lower() not in endings:
        raise FieldError(
            field="--out",
            expected=expected,
            got=repr(out.name),
            remedy=say("rename it") if remedy is None else remedy,
        )
    return out
