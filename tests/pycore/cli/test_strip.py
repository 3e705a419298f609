"""`tuckfold strip` end to end, and the same bytes through the page's call."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.cli.main import main
from pycore.contract.check import check_job, job_tree
from pycore.progress import run_to_end

SMALL = {"face": {"width_mm": 120, "height_mm": 90}, "print": {"ppi": 72}}
JOB = ["--set", "face.width_mm=120", "--set", "face.height_mm=90", "--set", "print.ppi=72"]
DAY = "2031-04-30"


@pytest.fixture(scope="module")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    pixels = np.full((120, 160, 3), 128, np.uint8)
    pixels[:, 80:] = (255, 0, 0)
    path = tmp_path_factory.mktemp("strip") / "halves.png"
    Image.fromarray(pixels).save(path)
    return path


def call(session: Session, method: str, params: dict[str, Any], buffer: bytes | None = None) -> Answer:
    found = run_to_end(session.call(method, params, buffer))
    assert isinstance(found, Answer)
    return found


def test_both_doors_give_the_same_bytes_and_figures(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out, values = tmp_path / "s.tif", tmp_path / "s.cgats.txt"
    assert main(["strip", str(picture), "--out", str(out), *JOB, "--date", DAY, "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    session = Session()
    call(session, "open", {"file": picture.name}, picture.read_bytes())
    found = call(session, "strip", {"job": job_tree(check_job(SMALL)), "date": DAY})
    reply: Any = found.reply
    assert b"".join(part.tobytes() for part in found.buffers) == out.read_bytes()
    assert reply.values.encode() == values.read_bytes()
    assert [one.model_dump(mode="json") for one in reply.report.patches] == report["patches"]

    measured = tmp_path / "m.txt"
    # A device that finds everything 3 lighter.
    lines = values.read_text().splitlines()
    start = lines.index("BEGIN_DATA") + 1
    for place in range(start, len(lines) - 1):
        words = lines[place].split("\t")
        words[-3] = f"{float(words[-3]) - 3:.3f}"
        lines[place] = "\t".join(words)
    measured.write_text("\n".join(lines))
    asked = ["strip", "--measured", str(measured), "--expected", str(values)]
    assert main([*asked, "--json"]) == 0
    check = json.loads(capsys.readouterr().out)
    page = call(session, "measure_strip", {"expected": values.read_text()}, measured.read_bytes())
    assert check == page.reply.model_dump(mode="json")
    # derived: CIEDE2000 weighs a step of L* by 1 at L* 50 and by more than half everywhere
    assert 1.5 < check["mean_de"] <= check["worst_de"] <= 3
    assert main(asked) == 0
    assert "on average over" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--out", "s.tif"], "PICTURE must be given to save a strip|The picture must be given"),
        (["--measured", "m.txt"], "--expected must be given together"),
        (["--measured", "m.txt", "--expected", "e.txt"], "--expected must be a file that can be read"),
    ],
)
def test_what_is_missing_is_said(arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    import re

    assert main(["strip", *arguments]) == 2
    assert re.search(said, capsys.readouterr().err)


@pytest.mark.parametrize("wrong", ["measured", "expected"])
def test_the_file_that_is_no_table_is_named(
    wrong: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Both are text of one kind."""
    values = "NUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
    values += "NUMBER_OF_SETS 1\nBEGIN_DATA\nA1 95 0 0\nEND_DATA\n"
    for name in ("measured", "expected"):
        (tmp_path / f"{name}.txt").write_text("a letter" if name == wrong else values, encoding="utf-8")
    given = [
        word for name in ("measured", "expected") for word in (f"--{name}", str(tmp_path / f"{name}.txt"))
    ]
    assert main(["strip", *given, "--json"]) == 2
    caught = capsys.readouterr()
    assert caught.err.startswith(f"tuckfold: {wrong}.txt: The CGATS text names no fields")
    assert json.loads(caught.out)["error"]["field"] == f"--{wrong}"


def test_only_a_tiff_is_written(picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["strip", str(picture), "--out", str(tmp_path / "s.jpg"), *JOB]) == 2
    assert "ends in .tif" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_left_of_a_strip_that_failed(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "s.tif"
    assert main(["strip", str(picture), "--out", str(out), *JOB, "--set", "colour.profile=none.icc"]) == 2
    assert "none.icc" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
