"""What of a piece is done: a record in its folder, so that a batch that was stopped goes on where it ended.

A kind of output is done when the record has its key, and its files are the ones that were written. The key
is made of the job, the contents of picture and profile, this program's version and the kind itself, but not
of the date. Files are made in a folder of their own and given their names when they are whole. The record is
written just before: a file under its final name is always known, and what a record names and is not there, or
is another, is made again.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import shutil
import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from pydantic import Field, ValidationError

from pycore import __version__
from pycore.contract.notes import Note
from pycore.contract.record import Record
from pycore.errors import OutputError, reason_of, shown
from pycore.printing.place import file_at, is_one_file
from pycore.speech import say

_RECORD: Final = ".made.json"
#: What a folder's name begins with in which files are being made.
_MAKING: Final = ".making-"
_CHUNK: Final = 1024 * 1024


class _File(Record):
    name: str
    bytes: int
    mtime_ns: int
    sha256: str


class _Done(Record):
    key: str
    files: list[_File]
    notes: list[Note] = Field(default_factory=list)


class _Made(Record):
    kinds: dict[str, _Done] = Field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Kept:
    """Files that are done, by name, and what was said of them."""

    files: list[str]
    notes: list[Note]


def content_key(*, job_text: str, picture: str, profile: str, kind: str, choice: str) -> str:
    """What one kind of output of a piece depends on, as a hash.

    Parameters
    ----------
    job_text : str
        The job as JSON, equal for equal jobs.
    picture, profile : str
        SHA-256 of their files; empty for the illustrative profile.
    kind : str
    choice : str
        What else was chosen of it, for example the format.

    Returns
    -------
    str
        Hexadecimal.

    Examples
    --------
    >>> one = content_key(job_text="{}", picture="", profile="", kind="print", choice="tiff")
    >>> one == content_key(job_text="{}", picture="", profile="", kind="print", choice="png")
    False
    """
    parts = [__version__, job_text, picture, profile, kind, choice]
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()


def kept_files(folder: Path, kind: str, key: str) -> Kept | None:
    """The files of one kind, where they are done and unchanged.

    Parameters
    ----------
    folder : Path
        The piece's.
    kind : str
    key : str
        From `content_key`.

    Returns
    -------
    Kept or None
        None: it is to be made.
    """
    done = _read(folder).kinds.get(kind)
    if done is None or done.key != key or not all(_is_same(folder / one.name, one) for one in done.files):
        return None
    return Kept(files=[one.name for one in done.files], notes=done.notes)


@contextlib.contextmanager
def making_folder(folder: Path) -> Iterator[Path]:
    """A folder beside the piece's files, in which new ones are made.

    Parameters
    ----------
    folder : Path
        The piece's; it is made where it is not there.

    Yields
    ------
    Path
        Empty, on the same disk, and gone after the block.

    Raises
    ------
    OutputError
        It cannot be made.
    """
    making = folder / f"{_MAKING}{uuid.uuid4().hex}"
    try:
        making.mkdir(parents=True)
    except OSError as wrong:
        raise _no_place(folder, wrong) from wrong
    try:
        yield making
    finally:
        shutil.rmtree(making, ignore_errors=True)


def settle(
    folder: Path,
    making: Path,
    *,
    kind: str,
    key: str,
    files: list[str],
    notes: list[Note],
    read: Iterable[Path] = (),
) -> None:
    """Record that new files are done, and give them their names.

    Parameters
    ----------
    folder : Path
        The piece's.
    making : Path
        Where they were made, on the same disk.
    kind : str
    key : str
    files : list of str
        Their names.
    notes : list of Note
        What to say of them.
    read : iterable of Path
        The picture and the profile that they were made of: none of these is written over.

    Raises
    ------
    OutputError
        They cannot be put there.
    """
    _spare(read, [folder / name for name in files])
    try:
        listed = [_known(making / name) for name in files]
    except OSError as wrong:
        raise _no_place(folder, wrong) from wrong
    kinds = {**_read(folder).kinds, kind: _Done(key=key, files=listed, notes=notes)}
    with file_at(folder / _RECORD, field="--out") as file:
        file.write(_Made(kinds=kinds).model_dump_json(indent=1).encode())
    try:
        for name in files:
            os.replace(making / name, folder / name)
    except OSError as wrong:
        raise _no_place(folder, wrong) from wrong


def _spare(read: Iterable[Path], written: list[Path]) -> None:
    for source in read:
        for out in written:
            if is_one_file(source, out):
                raise OutputError(
                    field="--out",
                    expected=say("another folder than that of the job's own files"),
                    got=shown(out.name),
                    remedy=say("choose another folder, or give the job another name"),
                    said=say("The new {name} would take the place of the job's own file.", name=out.name),
                )


def clear_unfinished(folder: Path) -> None:
    """Take away what a batch that was killed has left half made.

    Parameters
    ----------
    folder : Path
        The piece's.
    """
    for left in (*folder.glob(f"{_MAKING}*"), *folder.glob(".*.part")):
        if left.is_dir():
            shutil.rmtree(left, ignore_errors=True)
        else:
            left.unlink(missing_ok=True)


def _read(folder: Path) -> _Made:
    try:
        return _Made.model_validate_json((folder / _RECORD).read_bytes())
    except (OSError, ValidationError):
        # Without a record that can be read nothing is known to be done.
        return _Made()


def _known(path: Path) -> _File:
    """A file by its name, size, time and content, all of which it keeps as it is moved."""
    stat = path.stat()
    return _File(name=path.name, bytes=stat.st_size, mtime_ns=stat.st_mtime_ns, sha256=_sha256(path))


def _is_same(path: Path, known: _File) -> bool:
    try:
        stat = path.stat()
        if stat.st_size != known.bytes:
            return False
        # A copied folder has other times; then the content decides.
        return stat.st_mtime_ns == known.mtime_ns or _sha256(path) == known.sha256
    except OSError:
        return False


def _sha256(path: Path) -> str:
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while part := file.read(_CHUNK):
            digest.update(part)
    return digest.hexdigest()


def _no_place(folder: Path, wrong: OSError) -> OutputError:
    return OutputError(
        field="--out",
        expected=say("a place that can be written"),
        got=f"{folder.name}: {reason_of(wrong)}",
        remedy=say("choose another folder, or make room there"),
        said=say(
            "The files cannot be written there ({folder}: {strerror}).",
            folder=folder.name,
            strerror=reason_of(wrong),
        ),
    )
