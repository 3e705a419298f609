"""`tuckfold ticket` end to end."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main
from pycore.ticket.report import Paper
from pycore.ticket.reread import check_ticket


@pytest.fixture
def picture(tmp_path: Path) -> str:
    path = tmp_path / "grey.png"
    Image.fromarray(np.full((120, 160, 3), 128, np.uint8)).save(path)
    return str(path)


def test_the_ticket_is_written_and_measured(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "piece.pdf"
    asked = ["ticket", picture, "--out", str(out), "--paper", "letter", "--date", "2031-04-30"]
    assert main([*asked, "--client", 'Lindqvarn "House"', "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    report = check_ticket(out.read_bytes(), file="piece.pdf", paper=Paper.LETTER, pages=2)
    assert report.model_dump(mode="json") == {key: found[key] for key in found if key != "notes"}
    # The illustrative profile says what it is.
    assert [note["code"] for note in found["notes"]] == ["illustrative-profile"]
    first = out.read_bytes()
    assert main([*asked, "--client", "Another"]) == 0
    assert capsys.readouterr().out.splitlines()[0].endswith("bytes, 2 pages of Letter")
    assert out.read_bytes() != first
    assert sorted(os.listdir(tmp_path)) == ["grey.png", "piece.pdf"]


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (["--out", "a.txt"], "--out must be a name that ends in .pdf; you gave 'a.txt'."),
        (["--out", "a.pdf", "--date", "April"], "--date must be a day as YYYY-MM-DD; you gave 'April'."),
        (["--out", "a.pdf", "--client", "x" * 2001], "--client must be at most 2000 characters"),
        (["--out", "missing/a.pdf"], "The file cannot be written there ("),
        (["--out", "a.pdf", "--set", "face.width_mm=60"], "Face width must be"),
        (["--out", "a.pdf", "--profile", "none.icc"], "--profile must be a file that can be read"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(
    more: list[str],
    message: str,
    picture: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["ticket", picture, *more]) == 2
    said = capsys.readouterr().err
    assert message in said
    assert said.count("\n") == 1
    assert os.listdir(tmp_path) == ["grey.png"]


def test_a_full_disk_leaves_the_old_ticket_whole(
    picture: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "piece.pdf"
    out.write_bytes(b"the old one")

    def full(source: object, target: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "replace", full)
    assert main(["ticket", picture, "--out", str(out)]) == 2
    assert "no space is left" in capsys.readouterr().err
    assert out.read_bytes() == b"the old one"
    assert sorted(os.listdir(tmp_path)) == ["grey.png", "piece.pdf"]
