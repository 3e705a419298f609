"""The wheel that the page loads holds no program that the page serves by itself."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from build.failure import BuildError
from build.own_wheel import leave_out


@pytest.fixture
def wheel(tmp_path: Path) -> Path:
    path = tmp_path / "thing-1.0-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("thing/data/big.js", "let big;")
        archive.writestr("thing/data/big.js.map", "{}")
        archive.writestr(
            "thing-1.0.dist-info/RECORD", "thing/data/big.js,sha256=a,8\nthing/data/big.js.map,sha256=b,2\n"
        )
    return path


def test_a_file_and_its_record_are_left_out(wheel: Path) -> None:
    leave_out(wheel, "thing/data/big.js")
    with zipfile.ZipFile(wheel) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["thing/data/big.js.map", "thing-1.0.dist-info/RECORD"]
        assert archive.read("thing-1.0.dist-info/RECORD") == b"thing/data/big.js.map,sha256=b,2\n"


def test_a_file_that_is_missing_is_told(wheel: Path) -> None:
    with pytest.raises(BuildError, match="holds no thing/other"):
        leave_out(wheel, "thing/other.js")
