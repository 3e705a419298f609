"""What a start from the snapshot does not fetch."""

from __future__ import annotations

import io
import zipfile

from build.slim import blanked, stored_library, without_unused


def library(**contents: bytes) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in contents.items():
            archive.writestr(name.replace("__", "/") + ".pyc", data)
    return file.getvalue()


def test_the_library_is_stored_without_what_no_page_runs() -> None:
    stored = stored_library(library(json=b"a" * 100, xmlrpc__client=b"b", pdb=b"c"))
    with zipfile.ZipFile(io.BytesIO(stored)) as archive:
        (info,) = archive.infolist()
        assert (info.filename, info.compress_type, info.compress_size) == (
            "json.pyc",
            zipfile.ZIP_STORED,
            100,
        )
    assert stored == stored_library(library(json=b"a" * 100, xmlrpc__client=b"b", pdb=b"c"))


def test_what_is_loaded_becomes_zeros_and_the_rest_stays_where_it_lay() -> None:
    stored = stored_library(library(json=b"jjj", re=b"rrrr", ast=b"aa"))
    blank = blanked(stored, {"re.pyc", "none.pyc"})
    assert len(blank) == len(stored)
    at = stored.index(b"rrrr")
    assert blank == stored[:at] + bytes(4) + stored[at + 4 :]
    with zipfile.ZipFile(io.BytesIO(blank)) as archive:
        assert archive.read("json.pyc") == b"jjj"
        assert archive.read("ast.pyc") == b"aa"


def test_wheels_lose_what_no_page_runs() -> None:
    kept = ["numpy/version.pyc", "pydantic/main.pyc", "pycore/contract/job.pyc"]
    left = ["numpy/f2py/a.pyc", "pydantic/v1/main.pyc", "pycore/cli/main.pyc", "pycore/serving/server.pyc"]
    assert list(without_unused(dict.fromkeys([*kept, *left], b""))) == kept
