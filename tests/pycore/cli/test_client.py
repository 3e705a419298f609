"""`tuckfold client` end to end."""

from __future__ import annotations

import json
import os
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli import client
from pycore.cli.main import main
from pycore.client.recheck import check_client_page

SIZE = ["--set", "face.width_mm=160", "--set", "face.height_mm=120"]
DAY = ["--date", "2031-04-30"]
JOB = [*SIZE, *DAY]


@pytest.fixture(autouse=True)
def viewer(monkeypatch: pytest.MonkeyPatch) -> None:
    """The viewer's program is no part of these tests; inside Pyodide it is not there."""
    monkeypatch.setattr(client, "viewer_program", lambda: b'"use strict";\n')


@pytest.fixture
def picture(tmp_path: Path) -> str:
    pixels = np.full((240, 320, 3), 128, np.uint8)
    path = tmp_path / "private-name.png"
    Image.fromarray(pixels).save(path)
    return str(path)


def test_the_page_is_written_and_checked(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "page.html"
    edits = ["--set", "name=Low tide", "--set", "notes=charge double", "--message", "See the sides."]
    assert main(["client", picture, "--out", str(out), *JOB, *edits, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    data = out.read_bytes()
    assert (found["file"], found["bytes"], found["variants"]) == ("page.html", len(data), 1)
    assert check_client_page(data, file="page.html", variants=1).bytes == len(data)
    text = data.decode()
    assert "Low tide" in text
    assert "See the sides." in text
    assert "30 April 2031" in text
    for private in ("charge double", "private-name", str(tmp_path)):
        assert private not in text
    assert sorted(os.listdir(tmp_path)) == ["page.html", "private-name.png"]


def test_the_same_job_gives_the_same_bytes(picture: str, tmp_path: Path) -> None:
    for name in ("a.html", "b.html"):
        assert main(["client", picture, "--out", str(tmp_path / name), *JOB]) == 0
    assert (tmp_path / "a.html").read_bytes() == (tmp_path / "b.html").read_bytes()


@pytest.mark.parametrize(
    ("offered", "labels"),
    [
        (["--depths", "18,38,50"], ["18 mm", "38 mm", "50 mm"]),
        (["--fills", "mirror, plain"], ["Mirror", "Plain colour"]),
    ],
)
def test_variants_are_offered(picture: str, tmp_path: Path, offered: list[str], labels: list[str]) -> None:
    out = tmp_path / "page.html"
    assert main(["client", picture, "--out", str(out), *JOB, *offered]) == 0
    text = out.read_text(encoding="utf-8")
    offer = json.loads(text.partition('id="offer">')[2].partition("</script>")[0])
    assert [one["label"] for one in offer["variants"]] == labels
    assert [one["letter"] for one in offer["variants"]] == ["A", "B", "C"][: len(labels)]


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (["--out", "page.txt"], "--out must be a name that ends in .html; you gave 'page.txt'."),
        (["--out", "no/such/place.html"], "The file cannot be written there ("),
        (["--out", "a.html", "--date", "soon"], "--date must be a day as YYYY-MM-DD; you gave 'soon'."),
        (
            ["--out", "a.html", "--message", "x" * 2001],
            "--message must be at most 2000 characters; you gave 2001.",
        ),
        (["--out", "a.html", "--set", "bars.depth_mm=3"], "Bar depth must be 6 to 100 mm; you gave 3."),
        (
            ["--out", "a.html", "--depths", "18,deep"],
            "--depths must be lengths in mm with commas between them",
        ),
        (["--out", "a.html", "--depths", "18"], "--depths must be 2 to 4 values to compare; you gave 1."),
        (["--out", "a.html", "--fills", "mirror,foil"], "--fills must be one of"),
    ],
)
def test_what_is_wrong_is_one_line(
    picture: str,
    tmp_path: Path,
    more: list[str],
    message: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    day = [] if "--date" in more else DAY
    assert main(["client", picture, *SIZE, *day, *more]) == 2
    said = capsys.readouterr().err
    assert said.startswith(f"tuckfold: {message}")
    assert said.count("\n") == 1
    assert os.listdir(tmp_path) == ["private-name.png"]
