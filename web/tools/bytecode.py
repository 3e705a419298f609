"""Compiling the Python files of a zip or wheel; runs inside Pyodide, whose bytecode it makes.

A browser has no place to keep bytecode, so that without this every visit would compile every module anew: the
half of the time from an empty tab to a running core.
"""

from __future__ import annotations

import base64
import hashlib
import importlib.util
import marshal
import zipfile

#: Parts of wheels that only compilers and editors read.
UNUSED_SUFFIXES = (".pyi", ".h", ".a", ".c", ".pxd", ".pyx")

#: As in `build/one_date.py`, which Pyodide has not: the earliest date that a zip can hold.
ONE_DATE = (1980, 1, 1, 0, 0, 0)


def compile_archive(source: str, target: str) -> None:
    """Write a zip or wheel with each module's bytecode in the place of its source.

    Parameters
    ----------
    source, target : str
        Paths. The target is a whole wheel again where the source was one: its list of files (RECORD) is new.
    """
    record: list[str] = []
    with (
        zipfile.ZipFile(source) as read,
        zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as written,
    ):
        record_name = next((name for name in read.namelist() if name.endswith(".dist-info/RECORD")), None)
        for name in read.namelist():
            if name.endswith(("/", *UNUSED_SUFFIXES)) or name == record_name:
                continue
            data = read.read(name)
            if name.endswith(".py"):
                name, data = f"{name}c", bytecode(data, name)
            written.writestr(zipfile.ZipInfo(name, ONE_DATE), data, zipfile.ZIP_DEFLATED, compresslevel=9)
            digest = base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
            record.append(f"{name},sha256={digest},{len(data)}\n")
        if record_name is not None:
            text = "".join(record) + f"{record_name},,\n"
            written.writestr(zipfile.ZipInfo(record_name, ONE_DATE), text, zipfile.ZIP_DEFLATED)


def bytecode(source: bytes, name: str) -> bytes:
    """The content of a `.pyc` file that Python takes without looking for its source (PEP 552).

    Parameters
    ----------
    source : bytes
        The text of a module.
    name : str
        Its path, for tracebacks.

    Returns
    -------
    bytes
        Magic number, flags 0b01 (by hash, unchecked), the source's hash, and the code.
    """
    code = compile(source, name, "exec", dont_inherit=True)
    flags = (0b01).to_bytes(4, "little")
    return importlib.util.MAGIC_NUMBER + flags + importlib.util.source_hash(source) + marshal.dumps(code)
