"""What a start from the snapshot need not fetch: modules that the memory holds, and what no page runs."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Collection, Mapping
from typing import Final

from build.one_date import ZIP_DATE

#: Of a local file header up to its name, and where in it the lengths of name and extra field stand
#: (APPNOTE.TXT, section 4.3.7).
_HEADER_BYTES: Final = 30
_LENGTHS: Final = struct.Struct("<HH")
_LENGTHS_AT: Final = 26

#: Parts of Python's own library for terminals, servers, mail and tests. A page has none of these.
UNUSED_LIBRARY: Final = (
    *("_pyrepl/", "bdb.", "cProfile.", "cmd.", "compileall.", "curses/", "dbm/", "doctest.", "ensurepip/"),
    *("ftplib.", "http/server.", "idlelib/", "imaplib.", "mailbox.", "pdb.", "poplib.", "profile.", "pydoc."),
    *("pydoc_data/", "smtplib.", "sqlite3/", "tabnanny.", "tkinter/", "trace.", "turtle", "venv/"),
    *("webbrowser.", "wsgiref/", "xmlrpc/", "zipapp."),
)
#: Parts of the wheels for old interfaces, for compilers and tests, and for the command line.
UNUSED_FILES: Final = (
    *("numpy/f2py/", "numpy/distutils/", "pydantic/v1/", "pydantic/mypy.", "pydantic/experimental/"),
    *("pydantic_core/__pycache__/", "pycore/batch/", "pycore/cli/", "pycore/serving/"),
)


def without_unused(contents: Mapping[str, bytes]) -> dict[str, bytes]:
    """Leave out the files of wheels that no page runs.

    Parameters
    ----------
    contents : mapping
        Content by path below the packages' folder.

    Returns
    -------
    dict
        The rest, in the same order.

    Examples
    --------
    >>> without_unused({"numpy/f2py/a.pyc": b"", "numpy/version.pyc": b""})
    {'numpy/version.pyc': b''}
    """
    return {path: data for path, data in contents.items() if not path.startswith(UNUSED_FILES)}


def stored_library(library: bytes) -> bytes:
    """Python's own library without packing, for a host to pack as a whole, and without unused parts.

    Parameters
    ----------
    library : bytes
        A zip of compiled modules.

    Returns
    -------
    bytes
        A zip.
    """
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(library)) as read, zipfile.ZipFile(file, "w") as written:
        for name in read.namelist():
            if not name.startswith(UNUSED_LIBRARY) and not name.endswith("/"):
                written.writestr(zipfile.ZipInfo(name, ZIP_DATE), read.read(name), zipfile.ZIP_STORED)
    return file.getvalue()


def blanked(library: bytes, names: Collection[str]) -> bytes:
    """Write zeros over the content of some files of a zip that is not packed; all lies where it lay.

    Parameters
    ----------
    library : bytes
        The zip.
    names : collection of str
        Files in it whose content nobody reads again.

    Returns
    -------
    bytes
        The zip, of the same length.
    """
    data = bytearray(library)
    with zipfile.ZipFile(io.BytesIO(library)) as archive:
        for info in archive.infolist():
            if info.filename in names:
                lengths = _LENGTHS.unpack_from(data, info.header_offset + _LENGTHS_AT)
                start = info.header_offset + _HEADER_BYTES + sum(lengths)
                data[start : start + info.file_size] = bytes(info.file_size)
    return bytes(data)
