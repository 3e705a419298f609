"""The record of what is done: it knows every file under its final name, and believes none that is missing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from pycore.batch.ledger import kept_files, making_folder, settle
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import OutputError

SAID = Note(code="dry", severity=Severity.HINT, place=Place.FACE, message="Wait a day.", remedy="Wait.")


def settled(folder: Path, content: bytes, *, key: str = "k") -> None:
    with making_folder(folder) as making:
        (making / "a.tif").write_bytes(content)
        settle(folder, making, kind="print", key=key, files=["a.tif"], notes=[SAID])


def test_a_file_is_known_before_it_has_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    known: list[bool] = []
    replace = os.replace

    def watched(source: Path, target: Path) -> None:
        if Path(target).name == "a.tif":
            known.append('"a.tif"' in (tmp_path / ".made.json").read_text(encoding="utf-8"))
        replace(source, target)

    monkeypatch.setattr("pycore.batch.ledger.os.replace", watched)
    settled(tmp_path, b"whole")
    assert known == [True]
    kept = kept_files(tmp_path, "print", "k")
    assert kept is not None
    assert (kept.files, kept.notes) == (["a.tif"], [SAID])


@pytest.mark.parametrize("former", [None, b"older", b"of another job"])
def test_a_stop_before_the_name_leaves_it_to_be_made(
    former: bytes | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if former is not None:
        settled(tmp_path, former, key="former")
    replace = os.replace

    def stopped(source: Path, target: Path) -> None:
        if Path(target).name == "a.tif":
            raise OSError("stopped here")
        replace(source, target)

    monkeypatch.setattr("pycore.batch.ledger.os.replace", stopped)
    with pytest.raises(OutputError, match="stopped here"):
        settled(tmp_path, b"whole")
    assert kept_files(tmp_path, "print", "k") is None
    assert (tmp_path / "a.tif").exists() == (former is not None)
