"""Where a file is put: found out before the work, and filled only when the work ended well."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from pycore.errors import OutputError, reason_of
from pycore.speech import say


def is_one_file(one: Path, other: Path) -> bool:
    """Whether two paths lead to one file, whatever they are called: by a link or another way.

    Parameters
    ----------
    one, other : Path

    Returns
    -------
    bool
        False also where one of them is no file.

    Examples
    --------
    >>> is_one_file(Path("none.tif"), Path("none.tif"))
    False
    """
    return one.is_file() and other.is_file() and one.samefile(other)


def check_place(out: Path, *, field: str) -> None:
    """Find out before the work, not after it, that a file cannot be put there.

    Parameters
    ----------
    out : Path
    field : str
        What to call it in a message.

    Raises
    ------
    OutputError
        Its folder does not exist, or it may not be written.

    Examples
    --------
    >>> check_place(Path("canvas.tif"), field="out")
    """
    got = ""
    if not out.parent.is_dir():
        got = say("{out} in a folder that does not exist", out=out.name)
    elif out.is_dir():
        got = say("{out}, which is a folder", out=out.name)
    elif not os.access(out.parent, os.W_OK) or (out.exists() and not os.access(out, os.W_OK)):
        got = say("{out}, which may not be written", out=out.name)
    if got:
        raise _no_place(got, field)


@contextlib.contextmanager
def file_at(out: Path, *, field: str) -> Iterator[BinaryIO]:
    """A file to write and to read again. It appears at its path only when the block ends well.

    Parameters
    ----------
    out : Path
    field : str
        What to call it in a message.

    Yields
    ------
    BinaryIO
        Under another name beside it.

    Raises
    ------
    OutputError
        It cannot be written there.
    """
    beside = out.with_name(f".{out.name}.part")
    try:
        with beside.open("w+b") as file:
            yield file
        os.replace(beside, out)
    except OSError as failure:
        raise _no_place(f"{out.name}: {reason_of(failure)}", field) from failure
    finally:
        # Nothing is left of a run that failed or was stopped.
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)


def _no_place(got: str, field: str) -> OutputError:
    return OutputError(
        field=field,
        expected=say("a place that can be written"),
        got=got,
        remedy=say("choose another folder or name, or make room there"),
        said=say("The file cannot be written there ({got}).", got=got),
    )
