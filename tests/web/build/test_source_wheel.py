"""A wheel from a source archive: only modules, a right record, the same bytes each time."""

from __future__ import annotations

import base64
import hashlib
import io
import tarfile
import zipfile
from pathlib import Path

import pytest
from build.failure import BuildError
from build.pins import WheelPin
from build.source_wheel import source_wheel

PIN = WheelPin("thing", "1.0", "thing-1.0.tar.gz", "")


def archive(folder: Path, *names: str) -> Path:
    path = folder / PIN.file
    with tarfile.open(path, "w:gz") as out:
        for name in names:
            info = tarfile.TarInfo(f"thing-1.0/{name}")
            info.size = len(name)
            out.addfile(info, io.BytesIO(name.encode()))
    return path


def test_modules_and_a_record_of_them(tmp_path: Path) -> None:
    source = archive(
        tmp_path, "setup.py", "PKG-INFO", "thing/__init__.py", "thing/part.py", "thing/notes.txt"
    )
    wheel = source_wheel(PIN, source, into=tmp_path)
    assert wheel.name == "thing-1.0-py3-none-any.whl"
    with zipfile.ZipFile(wheel) as made:
        record = made.read("thing-1.0.dist-info/RECORD").decode().splitlines()
        assert {line.split(",")[0] for line in record} == set(made.namelist())
        modules = {name for name in made.namelist() if not name.startswith("thing-1.0.dist-info/")}
        assert modules == {"thing/__init__.py", "thing/part.py"}
        digest = hashlib.sha256(b"thing/part.py").digest()
        # published: PEP 376 and PEP 427, the record's hash.
        expected = base64.urlsafe_b64encode(digest).decode().rstrip("=")
        assert f"thing/part.py,sha256={expected},13" in record
    again = tmp_path / "again"
    again.mkdir()
    assert source_wheel(PIN, source, into=again).read_bytes() == wheel.read_bytes()


def test_an_archive_without_the_package_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BuildError, match=r"thing-1\.0\.tar\.gz holds no package thing"):
        source_wheel(PIN, archive(tmp_path, "setup.py"), into=tmp_path)
