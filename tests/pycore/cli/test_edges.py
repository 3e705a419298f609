"""`tuckfold edges` end to end."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main

from ..worked import WORKED_EDITS


@pytest.fixture
def picture(tmp_path: Path) -> str:
    """Grey, with a white disc that touches the right edge."""
    y, x = np.mgrid[0:600, 0:800]
    pixels = np.where((x - 775) ** 2 + (y - 300) ** 2 < 24**2, 255, 90).astype(np.uint8)
    path = tmp_path / "disc.png"
    Image.fromarray(pixels).convert("RGB").save(path)
    return str(path)


def test_figures_as_json(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["edges", picture, "--json", *WORKED_EDITS, "--set", "sides.fill=run-on"]) == 0
    found = json.loads(capsys.readouterr().out)
    sides = {one["side"]: one for one in found["sides"]}
    assert list(sides) == ["top", "right", "bottom", "left"]
    assert sides["right"]["doubled"] > 0.6
    assert sides["right"]["cut"] > 0.8
    assert sides["right"]["better"] == "drawn-out"
    assert sides["left"] == {
        **dict.fromkeys(("busy", "doubled", "broken", "cut"), 0.0),
        "side": "left",
        "fill": "run-on",
        "reason": "",
    }
    assert [note["code"] for note in found["notes"]] == ["side-cut"]


def test_figures_in_prose(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["edges", picture, *WORKED_EDITS]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Take another fill on these sides:"
    assert lines[1].startswith("  --set sides.right.fill=")
    assert "high is bad" in lines[3]
    assert lines[5].split()[:2] == ["top", "mirror"]
    assert lines[6].split()[:2] == ["right", "mirror"]
    assert lines[10].startswith("Look again: The right side shows a")


def test_a_picture_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "none.jpg"
    path.write_bytes(b"nothing")
    assert main(["edges", str(path)]) == 2
    assert capsys.readouterr().err.startswith("tuckfold: ")
