"""`tuckfold model` end to end."""

from __future__ import annotations

import json
import os
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main
from pycore.model.reread import check_model

SMALL = [
    "--set",
    "face.width_mm=160",
    "--set",
    "face.height_mm=140",
    "--set",
    "bars.depth_mm=38",
    "--texture-px",
    "60000",
]


@pytest.fixture
def picture(tmp_path: Path) -> str:
    path = tmp_path / "grey.png"
    Image.fromarray(np.full((240, 320, 3), 128, np.uint8)).save(path)
    return str(path)


def test_the_model_is_written_and_measured(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "piece.glb"
    assert main(["model", picture, "--out", str(out), *SMALL, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    # Derived: 160 + 0.9, 140 + 2.7, 38 + 2.7 mm.
    assert found["size_mm"] == pytest.approx([160.9, 142.7, 40.7], abs=0.005)
    width, height = found["texture_px"]
    report = check_model(
        out.read_bytes(), file="piece.glb", size_mm=(160.9, 142.7, 40.7), texture_px=(width, height)
    )
    assert report.model_dump(mode="json") == {key: found[key] for key in found if key != "notes"}
    assert sorted(os.listdir(tmp_path)) == ["grey.png", "piece.glb"]


def test_in_words(picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "piece.glb"
    assert main(["model", picture, "--out", str(out), "--colours", "filed", *SMALL]) == 0
    said = capsys.readouterr().out
    assert "folded   160.90 x 142.70 x 40.70 mm over everything" in said
    assert "fold     6 s" in said


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (["--out", "piece.gltf"], "--out must be a name that ends in .glb; you gave 'piece.gltf'."),
        (["--out", "a.glb", "--texture-px", "9"], "--texture-px must be 10000 to 40000000; you gave 9."),
        (["--out", "missing/a.glb", *SMALL], "The file cannot be written there ("),
        (["--out", "a.glb", "--set", "bars.depth_mm=3"], "Bar depth must be 6 to 100 mm"),
        (["--out", "a.glb", "--profile", "none.icc"], "--profile must be a file that can be read"),
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
    assert main(["model", picture, *more]) == 2
    said = capsys.readouterr().err
    assert message in said
    assert said.count("\n") == 1
    assert os.listdir(tmp_path) == ["grey.png"]
