"""`tuckfold bundle`, and a bundle in a job file's place."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from pycore.bundle.read import open_bundle
from pycore.cli.main import main

ROOT = Path(__file__).resolve().parents[3]
PROFILE = ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copy(ROOT / "demo_data" / "estuary.jpg", tmp_path / "tide.jpg")
    shutil.copy(PROFILE, tmp_path / "canvas.icc")
    (tmp_path / "job.json").write_text('{"name": "Low tide", "print": {"ppi": 36}}', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_bundle_gives_job_picture_and_profile(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    saving = "bundle tide.jpg --job job.json --profile canvas.icc --wall tide.jpg --out tide.zip --json"
    assert main(saving.split()) == 0
    report = json.loads(capsys.readouterr().out)
    assert {one["role"]: one["name"] for one in report["files"]} == {
        "picture": "tide.jpg",
        "profile": "canvas.icc",
        "wall": "tide.jpg",
    }
    assert report["bytes"] == (folder / "tide.zip").stat().st_size
    for name in ("tide.jpg", "canvas.icc", "job.json"):
        (folder / name).unlink()
    printing = "print --job tide.zip --set print.convert=convert --out tide.tif --json"
    assert main(printing.split()) == 0
    assert "Illustrative" in json.loads(capsys.readouterr().out)["profile_name"]
    assert main(["bundle", "--job", "tide.zip", "--out", "again.zip"]) == 0
    assert (folder / "again.zip").read_bytes() == (folder / "tide.zip").read_bytes()
    capsys.readouterr()
    assert main(["plan", "tide.zip", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["figures"]["pieces"] == 1
    assert open_bundle((folder / "again.zip").read_bytes()).job.name == "Low tide"


@pytest.mark.parametrize(
    ("command", "said"),
    [
        ("bundle --out a.zip", "The picture must be named"),
        ("bundle tide.jpg --out a.json", "--out must be a name that ends in .zip"),
        ("bundle tide.jpg --set colour.profile=none.icc --out a.zip", "none.icc"),
        ("layout --job cut.zip", "may not have been copied whole"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(
    folder: Path, command: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "cut.zip").write_bytes(b"PK\x03\x04 and no more")
    before = sorted(folder.iterdir())
    assert main(command.split()) == 2
    line = capsys.readouterr().err
    assert said in line
    assert line.count("\n") == 1
    assert sorted(folder.iterdir()) == before
