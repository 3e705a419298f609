"""`tuckfold edges` end to end."""

from __future__ import annotations

import json
import re
from itertools import pairwise
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
    # A mirror would double the disc too, but the side runs on: that is what it shows.
    assert sides["right"]["fault"] == "cut"
    assert sides["left"] == {
        **dict.fromkeys(("busy", "doubled", "broken", "cut", "chevrons", "repeated"), 0.0),
        **dict.fromkeys(("smeared", "bent", "severed", "streaked"), 0.0),
        "side": "left",
        "fill": "run-on",
        # Derived: of plain grey a mirror is all that there is to be continued.
        "mirrored": True,
        "fault": "",
        "reason": "",
    }
    assert [note["code"] for note in found["notes"]] == ["side-cut"]


def test_figures_in_prose(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["edges", picture, *WORKED_EDITS]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Take another fill on these sides:"
    assert lines[1].startswith("  --set sides.right.fill=")
    assert "high is bad" in lines[3]
    assert [line.split()[:2] for line in lines[6:8]] == [["top", "mirror"], ["right", "mirror"]]
    assert len({len(line.rsplit(maxsplit=1)[0]) for line in lines[5:10]}) == 1
    assert lines[11].startswith("Look again: The right side shows a shape twice")


@pytest.fixture
def bowl(tmp_path: Path) -> str:
    """A red bowl on grey, which the crop below cuts in half at the left."""
    y, x = np.mgrid[0:600, 0:1000]
    pixels = np.full((600, 1000, 3), 150, np.uint8)
    pixels[(x - 120) ** 2 + (y - 300) ** 2 < 60**2] = (200, 60, 40)
    path = tmp_path / "bowl.png"
    Image.fromarray(pixels).save(path)
    return str(path)


FACE = ("--set", "face.width_mm=300", "--set", "face.height_mm=200", "--set", "sides.fill=continued")


def test_a_cut_thing_is_said_and_the_printed_option_mends_it(
    bowl: str, capsys: pytest.CaptureFixture[str]
) -> None:
    crop = 'picture.crop={"x": 0.12, "y": 0.0, "width": 0.8, "height": 0.98}'
    assert main(["edges", bowl, *FACE, "--set", crop]) == 0
    said = capsys.readouterr().out
    assert "The left side shows a stub: its front edge cuts something distinct" in said
    move, option = next(
        pair for pair in pairwise(said.splitlines()) if "and the left edge cuts nothing" in pair[0]
    )
    # derived: the bowl reaches 60 pixels either way; 800 pixels of the picture are 300 mm, so 22.5 mm and a
    # little more clear it.
    found = re.fullmatch(
        r"Move the crop ([0-9.]+) mm to the (left|right), and the left edge cuts nothing:", move
    )
    assert found is not None
    assert 22.5 < float(found[1]) < 26
    edit = re.fullmatch(r"  --set '(picture\.crop=.*)'", option)
    assert edit is not None
    # derived: the face of 300 mm and its allowance of 0.9 show 0.8 of the picture's width; the move is
    # rounded to 0.1 mm. Up and down the crop stays in the middle of what was asked for.
    moved = json.loads(edit[1].removeprefix("picture.crop="))
    share = float(found[1]) / 300.9 * 0.8 * (-1 if found[2] == "left" else 1)
    assert moved["x"] == pytest.approx(0.12 + share, abs=1.4e-4)
    assert moved["width"] == pytest.approx(0.8)
    assert moved["y"] + moved["height"] / 2 == pytest.approx(0.98 / 2, abs=1e-5)
    assert main(["edges", bowl, *FACE, "--set", edit[1], "--json"]) == 0
    after = json.loads(capsys.readouterr().out)
    assert [one["severed"] for one in after["sides"]] == [0.0] * 4
    assert [note["code"] for note in after["notes"]] == ["continued-mirrored"]


def test_a_picture_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "none.jpg"
    path.write_bytes(b"nothing")
    assert main(["edges", str(path)]) == 2
    assert capsys.readouterr().err.startswith("tuckfold: ")
