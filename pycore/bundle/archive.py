"""The members of a zip archive from somewhere else, in memory alone, or one clear error.

Nothing is written to a disk, and no name in the archive becomes a path: a member is found by its name in the
bundle's list. What no bundle needs is refused all the same, since it says that the file is none, or is meant
to harm.

References
----------
PKWARE, APPNOTE.TXT, 4.3.16 (end of central directory record), 4.4.4 (general purpose bit flag).
"""

from __future__ import annotations

import io
import stat
import struct
import zipfile
import zlib
from typing import Final

from pycore.errors import BundleError, shown
from pycore.speech import say

#: A bundle has five; folders of a repacked one come on top.
MOST_MEMBERS: Final = 16
#: Bytes of the archive's own list: 16 members with long names.
_MOST_LIST_BYTES: Final = 64 * 1024
#: Of all members together: more than the largest pictures that can be opened.
MOST_BYTES: Final = 4 * 1024**3
#: A packed member may grow so many times, where it is large at all. Photographs do not pack well.
MOST_GROWTH: Final = 100
_LARGE_BYTES: Final = 16 * 1024**2

_END: Final = b"PK\x05\x06"
_END_BYTES: Final = 22
_MOST_COMMENT: Final = 65535
_PACKINGS: Final = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}
_FAULTS: Final = (
    zipfile.BadZipFile,
    zipfile.LargeZipFile,
    zlib.error,
    struct.error,
    EOFError,
    NotImplementedError,
    OverflowError,
    RuntimeError,
    ValueError,
    OSError,
)

#: Characters of a message's reason.
_LONGEST_REASON: Final = 120


def is_archive(data: bytes) -> bool:
    """Whether a file begins as a zip archive does.

    Parameters
    ----------
    data : bytes
        The file, or its first four bytes.

    Returns
    -------
    bool

    Examples
    --------
    >>> is_archive(b"PK..."), is_archive(b"{}")
    (False, False)
    """
    return data[:4] in (b"PK\x03\x04", _END)


def read_members(data: bytes) -> dict[str, bytes]:
    """Read all files of an archive.

    Parameters
    ----------
    data : bytes
        The archive.

    Returns
    -------
    dict of str to bytes
        By their names; folders are left out.

    Raises
    ------
    BundleError
        It is damaged, asks for too much, or holds what no bundle holds.
    """
    if not is_archive(data):
        raise _no_bundle(say("it does not begin as a zip archive does"))
    _check_end(data)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            members = archive.infolist()
            _check_members(members)
            return {one.filename: archive.read(one) for one in members if not one.is_dir()}
    except _FAULTS as wrong:
        raise _no_bundle(say("the archive is damaged: {reason}", reason=_reason(wrong))) from wrong


def refused(said: str, *, remedy: str = say("save the bundle again")) -> BundleError:
    """The error about a bundle, in a sentence.

    Parameters
    ----------
    said : str
        The sentence.
    remedy : str

    Returns
    -------
    BundleError
    """
    got = say("a file that is none")
    return BundleError(field="bundle", expected=say("a bundle"), got=got, remedy=remedy, said=said)


def _check_end(data: bytes) -> None:
    """Look at the archive's count and at the size of its list before the list is read."""
    at = data.rfind(_END, max(0, len(data) - _END_BYTES - _MOST_COMMENT))
    if at < 0 or at + _END_BYTES > len(data):
        raise _no_bundle(say("its end is missing; it may not have been copied whole"))
    count, list_bytes = struct.unpack_from("<10xHI", data, at)
    if count > MOST_MEMBERS or list_bytes > _MOST_LIST_BYTES:
        raise _too_many(count)


def _check_members(members: list[zipfile.ZipInfo]) -> None:
    if len(members) > MOST_MEMBERS:
        raise _too_many(len(members))
    seen: set[str] = set()
    for one in members:
        name = shown(one.filename)
        if _climbs(one.orig_filename) or _climbs(one.filename):
            raise refused(
                say("The bundle names a file outside itself ({name}), so it is not opened.", name=name)
            )
        if one.filename.casefold() in seen:
            raise refused(
                say("The bundle holds two files of one name ({name}), so it is not opened.", name=name)
            )
        seen.add(one.filename.casefold())
        if one.flag_bits & 0x1:
            raise refused(
                say("The bundle is encrypted ({name}), so it is not opened.", name=name),
                remedy=say("save it without a password"),
            )
        if stat.S_ISLNK(one.external_attr >> 16):
            raise refused(
                say("The bundle holds a link to another file ({name}), so it is not opened.", name=name)
            )
        if one.compress_type not in _PACKINGS:
            raise refused(say("The bundle is packed in a way that is not read here ({name}).", name=name))
        grown = one.file_size > MOST_GROWTH * max(one.compress_size, 1)
        if one.file_size > _LARGE_BYTES and grown:
            raise refused(
                say(
                    "The bundle unpacks to more than {most_growth} times its size ({name}), so it is "
                    "not opened.",
                    most_growth=MOST_GROWTH,
                    name=name,
                )
            )
    total = sum(one.file_size for one in members)
    if total > MOST_BYTES:
        raise refused(
            say(
                "The bundle unpacks to {total:.1f} GiB; at most {most_bytes:g} GiB are opened.",
                total=total / 1024**3,
                most_bytes=MOST_BYTES / 1024**3,
            )
        )


def _climbs(name: str) -> bool:
    """Whether a name leads out of its folder, on any system."""
    parts = name.replace("\\", "/").split("/")
    return ".." in parts or parts[0] == "" or ":" in name or "\0" in name


def _too_many(count: int) -> BundleError:
    return refused(
        say(
            "The bundle says that it holds {count} files; at most {most_members} are opened.",
            count=count,
            most_members=MOST_MEMBERS,
        )
    )


def _no_bundle(reason: str) -> BundleError:
    return refused(
        say("The file is no bundle: {reason}.", reason=reason),
        remedy=say("choose another file, or save the bundle again"),
    )


def _reason(wrong: Exception) -> str:
    """What the archive's reader says, in one line: it quotes the archive's own bytes."""
    text = (" ".join(str(wrong).split()) or type(wrong).__name__).rstrip(".")
    return text if len(text) <= _LONGEST_REASON else text[: _LONGEST_REASON - 1] + "…"
